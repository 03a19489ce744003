from django.urls import path

from inspections.comparison import api, tables_api

urlpatterns = [
    path("comparison", api.compare, name="comparison"),
    path("comparison/suppliers/<uuid:supplier_id>", api.supplier_parts, name="comparison-supplier"),
    path("measures", api.measure, name="measures"),
    path("tables", tables_api.tables, name="tables"),
    path("tables/<slug:name>", tables_api.table_rows, name="table-rows"),
    path("tables/<slug:name>.<slug:kind>", tables_api.table_file, name="table-file"),
    path("agreement", api.agree, name="agreement"),
]
