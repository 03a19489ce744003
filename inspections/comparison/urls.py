from django.urls import path

from inspections.comparison import api

urlpatterns = [
    path("comparison", api.compare, name="comparison"),
    path("comparison/suppliers/<uuid:supplier_id>", api.supplier_parts, name="comparison-supplier"),
    path("measures", api.measure, name="measures"),
    path("agreement", api.agree, name="agreement"),
]
