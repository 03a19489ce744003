from django.urls import path

from inspections.people import api, passkeys_api

urlpatterns = [
    path("session", api.SessionView.as_view(), name="session"),
    path("session/passkey", passkeys_api.PasskeySessionView.as_view()),
    path("session/passkey/options", passkeys_api.PasskeyOptionsView.as_view()),
    path("passkeys", passkeys_api.PasskeysView.as_view()),
    path("passkeys/options", passkeys_api.NewPasskeyView.as_view()),
    path("passkeys/<int:passkey_id>", passkeys_api.PasskeyView.as_view()),
    path("pin", api.PinView.as_view()),
    path("device", api.SharedDeviceView.as_view()),
    path("device/session", api.PinSessionView.as_view()),
    path("devices", api.DevicesView.as_view()),
    path("devices/<uuid:device_id>", api.DeviceView.as_view()),
    path("trail", api.TrailView.as_view()),
]
