from django.urls import path

from inspections.comparison import api, summary_api, tables_api

urlpatterns = [
    path("comparison", api.ComparisonView.as_view(), name="comparison"),
    path("comparison/suppliers/<uuid:supplier_id>", api.SupplierPartsView.as_view(), name="comparison-supplier"),
    path("measures", api.MeasuresView.as_view(), name="measures"),
    path("summary", summary_api.SummaryView.as_view(), name="summary"),
    path("summary.pdf", summary_api.SummaryPdfView.as_view(), name="summary-pdf"),
    path("summary/mail", summary_api.SummaryMailView.as_view(), name="summary-mail"),
    path("tables", tables_api.TablesView.as_view(), name="tables"),
    path("tables/<slug:name>", tables_api.TableRowsView.as_view(), name="table-rows"),
    path("tables/<slug:name>.<slug:kind>", tables_api.TableFileView.as_view(), name="table-file"),
    path("agreement", api.AgreementView.as_view(), name="agreement"),
]
