from django.urls import path

from inspections.comparison import api

urlpatterns = [
    path("comparison", api.compare, name="comparison"),
    path("agreement", api.agree, name="agreement"),
]
