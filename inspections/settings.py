"""Settings, all from the environment; DEVELOPERS.md lists each one and a test keeps that list true.

The default start is one machine with nothing but Python: SQLite, photos on disk and a broker made of
files, all in one data folder. PostgreSQL, Redis and S3-compatible storage are chosen by variables alone.
"""
import os
from datetime import timedelta
from pathlib import Path

import environ
from csp.constants import NONE, SELF

from inspections import env, hosts

BASE_DIR = Path(__file__).resolve().parent.parent
# Whatever this process writes is its own user's alone.
os.umask(0o077)
DATA = env.private_folder("UNDERLID_DATA", BASE_DIR / ".data")
KEY_ROOT = DATA / "keys"
PHOTO_ROOT = DATA / "photos"
FRONTEND_DIST = env.folder("UNDERLID_FRONTEND", BASE_DIR / "frontend" / "dist")

INSTALLATION_NAME = env.text("UNDERLID_NAME", "Underlid")
DEBUG = env.yes_no("UNDERLID_DEBUG", False)
SECRET_KEY = env.secret("UNDERLID_SECRET_KEY", kept_at=KEY_ROOT / "django.txt")
# In production the proxy in front names the hosts; else this machine's own names and addresses.
ALLOWED_HOSTS = env.words("UNDERLID_HOSTS", [])
if "*" in ALLOWED_HOSTS:
    raise env.UnusableSetting("UNDERLID_HOSTS is “*”. Name the hosts that the server answers to, or leave it out.")
ANSWERS_TO_OWN_ADDRESS = not ALLOWED_HOSTS
ALLOWED_HOSTS += hosts.own_names() if ANSWERS_TO_OWN_ADDRESS else hosts.THIS_MACHINE
CSRF_TRUSTED_ORIGINS = env.words("UNDERLID_ORIGINS", [])
BEHIND_HTTPS = env.yes_no("UNDERLID_HTTPS", False)
# How many of them add the address that they saw to X-Forwarded-For; without one nobody may say where from they are.
PROXIES = env.whole_number("UNDERLID_PROXIES", 1 if BEHIND_HTTPS else 0, least=0, most=5)
# A link for a supplier must carry the address the world knows, not the one this request came by.
PUBLIC_ADDRESS = env.text("UNDERLID_PUBLIC_ADDRESS", "").rstrip("/")

INSTALLED_APPS = [
    "inspections.people",
    "inspections.records",
    "inspections.sync",
    "inspections.evidence",
    "inspections.claims",
    "inspections.comparison",
    "inspections.development",
    "django.contrib.admin",
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "whitenoise.runserver_nostatic",
    "django.contrib.staticfiles",
    "rest_framework",
    "axes",
    "csp",
]
MIDDLEWARE = [
    "inspections.tracing.Traced",
    "inspections.hosts.OwnAddress",
    "django.middleware.security.SecurityMiddleware",
    # Before the files, or the app's page would come without a policy under its own name (/index.html).
    "csp.middleware.CSPMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "inspections.compressed.Compressed",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "inspections.people.sessions.KeptSessions",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "axes.middleware.AxesMiddleware",
]
ROOT_URLCONF = "inspections.urls"
WSGI_APPLICATION = "inspections.wsgi.application"
ASGI_APPLICATION = "inspections.asgi.application"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
            ],
            "builtins": ["inspections.messages.tags"],
        },
    }
]

# ---- database -------------------------------------------------------------------------------------------
DATABASE_URL = env.text("DATABASE_URL", f"sqlite:///{DATA / 'underlid.sqlite3'}")
DATABASES = {"default": environ.Env.db_url_config(DATABASE_URL)}
# Opening a connection costs more than most requests do.
DATABASES["default"]["CONN_MAX_AGE"] = 60
if DATABASES["default"]["ENGINE"] == "django.db.backends.sqlite3":
    DATABASES["default"]["ENGINE"] = "inspections.sqlite"
    DATABASES["default"]["OPTIONS"] = {
        # IMMEDIATE: a transaction that will write takes the lock at its start and waits its turn,
        # where the default would fail half-way. FULL: what was acknowledged survives a power cut.
        "transaction_mode": "IMMEDIATE",
        "timeout": 20,
        "init_command": "PRAGMA journal_mode=WAL;PRAGMA synchronous=FULL;PRAGMA foreign_keys=ON;"
        "PRAGMA cache_size=-16000;PRAGMA temp_store=MEMORY;PRAGMA journal_size_limit=27103364",
    }
    # Tests run threads against it; a database in memory would not let them wait for each other.
    DATABASES["default"]["TEST"] = {"NAME": DATA / "tests.sqlite3"}
else:
    DATABASES["default"]["CONN_HEALTH_CHECKS"] = True
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

# ---- people -----------------------------------------------------------------------------------------------
AUTH_USER_MODEL = "people.Person"
AUTHENTICATION_BACKENDS = ["axes.backends.AxesStandaloneBackend", "django.contrib.auth.backends.ModelBackend",
                           "inspections.people.pins.PinBackend", "inspections.people.passkeys.PasskeyBackend"]
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator", "OPTIONS": {"min_length": 8}},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
]
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = BEHIND_HTTPS
CSRF_FAILURE_VIEW = "inspections.spa.stale"
SESSION_COOKIE_SAMESITE = CSRF_COOKIE_SAMESITE = "Lax"
LOGIN_URL = "/"
# How long an invitation of a supplier's person holds.
PASSWORD_RESET_TIMEOUT = 14 * 24 * 3600
# What is counted and where each count ends: inspections/people/lockout.py, which wants the three in this order.
AXES_HANDLER = "inspections.people.lockout.Slowed"
AXES_FAILURE_LIMIT = 10
AXES_COOLOFF_TIME = timedelta(minutes=10)
AXES_LOCKOUT_PARAMETERS = ["username", "ip_address", ["username", "ip_address"]]
# A try that was not let through adds nothing, or whoever keeps trying would keep a name locked for ever.
AXES_RESET_COOL_OFF_ON_FAILURE_DURING_LOCKOUT = False
AXES_CLIENT_IP_CALLABLE = "inspections.people.address.client_address"
AXES_USERNAME_CALLABLE = "inspections.people.lockout.counted_as"
AXES_LOCKOUT_CALLABLE = "inspections.people.lockout.answer"
AXES_VERBOSE = False
AXES_ENABLED = env.yes_no("UNDERLID_LOCKOUT", True)

# ---- in front ---------------------------------------------------------------------------------------------
if BEHIND_HTTPS:
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
    SECURE_HSTS_SECONDS = 365 * 24 * 3600
    SECURE_HSTS_INCLUDE_SUBDOMAINS = True
    SECURE_SSL_REDIRECT = True
    # Whoever watches a container asks it directly, behind the proxy.
    SECURE_REDIRECT_EXEMPT = [r"^health(/|$)", r"^metrics$"]
    # W021: whether a domain goes into browsers' preload lists is for its owner to ask, once and for good.
    SILENCED_SYSTEM_CHECKS = ["security.W021"]
SECURE_REFERRER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [SELF],
        # The barcode reader is WebAssembly; nothing else is evaluated.
        "script-src": [SELF, "'wasm-unsafe-eval'"],
        "style-src": [SELF],
        "img-src": [SELF, "data:", "blob:"],
        "connect-src": [SELF],
        "worker-src": [SELF, "blob:"],
        "object-src": [NONE],
        "base-uri": [SELF],
        "form-action": [SELF],
        "frame-ancestors": [NONE],
    }
}
# Signed documents hold strokes and readings, never pictures: 8 MB is twenty times the longest one seen.
DATA_UPLOAD_MAX_MEMORY_SIZE = 8 * 1024 * 1024
MAX_PHOTO_BYTES = env.whole_number("UNDERLID_MAX_PHOTO_MB", 40, least=1, most=500) * 1024 * 1024
# One request carries at most this much of a photo (a phone sends pieces of half a MB).
MAX_UPLOAD_PIECE_BYTES = 8 * 1024 * 1024
# What no request may go beyond; the web server refuses it before any thread sees it.
MOST_BODY_BYTES = max(DATA_UPLOAD_MAX_MEMORY_SIZE, MAX_UPLOAD_PIECE_BYTES)
WEB_THREADS = env.whole_number("UNDERLID_WEB_THREADS", 8, least=1, most=64)

# ---- files ------------------------------------------------------------------------------------------------
FILE_UPLOAD_PERMISSIONS = 0o600
STATIC_URL = "/static/"
STATIC_ROOT = DATA / "static"
# The built app lies at the root of the site, so that its service worker may serve every page of it.
if FRONTEND_DIST.is_dir():
    WHITENOISE_ROOT = FRONTEND_DIST
WHITENOISE_INDEX_FILE = False


def _is_hashed(path: str, url: str) -> bool:
    """Files under /assets/ carry a hash in their name and may be kept for ever."""
    return url.startswith("/assets/")


WHITENOISE_IMMUTABLE_FILE_TEST = _is_hashed
S3_BUCKET = env.text("UNDERLID_S3_BUCKET")
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage", "OPTIONS": {"location": PHOTO_ROOT}},
    "photos": {"BACKEND": "inspections.records.storage.DurableFiles", "OPTIONS": {"location": PHOTO_ROOT}},
    "staticfiles": {"BACKEND": "whitenoise.storage.CompressedStaticFilesStorage"},
}
if S3_BUCKET:
    STORAGES["photos"] = {
        "BACKEND": "storages.backends.s3.S3Storage",
        "OPTIONS": {
            "bucket_name": S3_BUCKET,
            "endpoint_url": env.text("UNDERLID_S3_ENDPOINT") or None,
            "region_name": env.text("UNDERLID_S3_REGION") or None,
            "access_key": env.text("UNDERLID_S3_KEY") or None,
            "secret_key": env.text("UNDERLID_S3_SECRET") or None,
            "file_overwrite": True,
            "default_acl": None,
        },
    }

# ---- API --------------------------------------------------------------------------------------------------
REST_FRAMEWORK = {
    "DEFAULT_AUTHENTICATION_CLASSES": ["rest_framework.authentication.SessionAuthentication"],
    "DEFAULT_PERMISSION_CLASSES": ["rest_framework.permissions.IsAuthenticated"],
    "DEFAULT_RENDERER_CLASSES": ["rest_framework.renderers.JSONRenderer"],
    "DEFAULT_PARSER_CLASSES": ["inspections.bodies.StrictJSON"],
    "DEFAULT_CONTENT_NEGOTIATION_CLASS": "inspections.bodies.OneForm",
    "EXCEPTION_HANDLER": "inspections.errors.answer",
    "UNAUTHENTICATED_USER": "django.contrib.auth.models.AnonymousUser",
}

# ---- worker -----------------------------------------------------------------------------------------------
REDIS_URL = env.text("REDIS_URL")
BROKER_FOLDER = DATA / "broker"
# The host name is not used; without one kombu warns at every start.
CELERY_BROKER_URL = REDIS_URL or "filesystem://localhost/"
if REDIS_URL:
    # Longer than a worker is at one message; what is lost with it is found by the sweep.
    CELERY_BROKER_TRANSPORT_OPTIONS = {"visibility_timeout": 180}
else:
    for part in ("messages", "control"):
        (BROKER_FOLDER / part).mkdir(parents=True, exist_ok=True)
    CELERY_BROKER_TRANSPORT_OPTIONS = {
        "data_folder_in": str(BROKER_FOLDER / "messages"),
        "data_folder_out": str(BROKER_FOLDER / "messages"),
        "control_folder": str(BROKER_FOLDER / "control"),
        "store_processed": False,
        "polling_interval": 0.1,
    }
CELERY_TASK_IGNORE_RESULT = True
CELERY_TASK_ACKS_LATE = True
CELERY_WORKER_PREFETCH_MULTIPLIER = 1
CELERY_TASK_PUBLISH_RETRY = False
CELERY_BROKER_CONNECTION_RETRY_ON_STARTUP = True
CELERY_TIMEZONE = "UTC"
# The broker carries only hints; each worker's sweep finds whatever a lost hint or a killed worker left.
SWEEP_SECONDS = env.whole_number("UNDERLID_SWEEP_SECONDS", 20, least=1, most=3600)

# ---- mail -------------------------------------------------------------------------------------------------
# A mail carries a link, so it needs the address that the world knows: without both none is written.
EMAIL_URL = env.text("UNDERLID_EMAIL_URL")
DEFAULT_FROM_EMAIL = env.text("UNDERLID_EMAIL_FROM", "underlid@localhost")
SENDS_MAIL = bool(EMAIL_URL and PUBLIC_ADDRESS)
if EMAIL_URL:
    vars().update(environ.Env.email_url_config(EMAIL_URL))
EMAIL_TIMEOUT = 30

# ---- words and time ---------------------------------------------------------------------------------------
LANGUAGE_CODE = "en-gb"
TIME_ZONE = "UTC"
USE_I18N = False
USE_TZ = True

METRICS_TOKEN = env.text("UNDERLID_METRICS_TOKEN")

# ---- time stamps of seals by an outside authority (RFC 3161): both or neither ------------------------------
TSA, TSA_ROOTS = env.text("UNDERLID_TSA"), env.text("UNDERLID_TSA_ROOTS")
if TSA and not (TSA.startswith(("https://", "http://")) and TSA_ROOTS):
    raise env.UnusableSetting("UNDERLID_TSA is the https:// or http:// address of an authority for time stamps. "
                              "UNDERLID_TSA_ROOTS must then name the file with its root certificates (PEM).")
LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "filters": {"request": {"()": "inspections.tracing.WithRequestId"},
                "tokens": {"()": "inspections.tracing.WithoutTokens"}},
    "formatters": {
        "line": {"format": "{asctime} {levelname} {request_id} {name}: {message}", "style": "{"},
        "json": {"()": "pythonjsonlogger.json.JsonFormatter", "timestamp": True,
                 "format": "{levelname}{name}{message}{request_id}", "style": "{"},
    },
    "handlers": {"out": {
        "class": "logging.StreamHandler", "filters": ["request"],
        "formatter": "json" if env.yes_no("UNDERLID_LOG_JSON", False) else "line"}},
    "loggers": {name: {"filters": ["tokens"]} for name in ("django.request", "django.security.csrf")},
    "root": {"handlers": ["out"], "level": env.text("UNDERLID_LOG", "WARNING").upper() or "WARNING"},
}
