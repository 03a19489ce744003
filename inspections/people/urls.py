from django.urls import path

from inspections.people import api

urlpatterns = [
    path("session", api.SessionView.as_view(), name="session"),
    path("pin", api.PinView.as_view()),
    path("device", api.SharedDeviceView.as_view()),
    path("device/session", api.PinSessionView.as_view()),
    path("devices", api.DevicesView.as_view()),
    path("devices/<uuid:device_id>", api.DeviceView.as_view()),
    path("trail", api.TrailView.as_view()),
]
