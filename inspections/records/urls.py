from django.urls import path, re_path

from inspections.records import api

urlpatterns = [
    path("deliveries", api.DeliveriesView.as_view(), name="deliveries"),
    path("deliveries/<uuid:delivery_id>", api.DeliveryView.as_view(), name="delivery"),
    path("lots", api.LotsView.as_view(), name="lots"),
    re_path(
        r"^photos/(?P<sha256>[0-9a-f]{64})/(?P<size>thumb|screen|original|overlay|histogram)$",
        api.PhotoView.as_view(), name="photo",
    ),
    path("parked", api.ParkedView.as_view()),
    path("parked/<uuid:job_id>", api.ParkedJobView.as_view()),
    path("orders", api.OrdersView.as_view(), name="orders"),
    path("limits", api.LimitsView.as_view(), name="limits"),
    path("limits/trials", api.TrialView.as_view(), name="limit-trials"),
    path("specifications", api.SpecificationsView.as_view(), name="specifications"),
    path("specifications/<uuid:specification_id>/advice", api.AdviceSwitchView.as_view(), name="advice-switch"),
    path("reference-card.pdf", api.CardView.as_view(), name="reference-card"),
    path("thermometers", api.ThermometersView.as_view(), name="thermometers"),
    path("kept/<slug:kind>", api.KeptView.as_view()),
    path("kept/<slug:kind>/<str:row_id>", api.KeptRowView.as_view()),
    path("imports/<slug:kind>", api.ImportView.as_view(), name="imports"),
]
