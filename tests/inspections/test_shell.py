"""The app's page stands behind each of its addresses; other addresses get a plain sentence."""
import pytest


@pytest.fixture
def built(tmp_path, settings):
    (tmp_path / "index.html").write_text("<!doctype html><title>Underlid</title>")
    settings.FRONTEND_DIST = tmp_path
    return tmp_path


@pytest.mark.parametrize(
    "path", ["/", "/walk/1/label~2~3", "/waiting", "/sign-in", "/desk", "/desk/deliveries/1", "/how"])
def test_each_address_of_the_app_opens_the_app(client, built, path):
    answer = client.get(path)
    assert answer.status_code == 200
    assert b"<title>Underlid</title>" in answer.content
    assert answer["Cache-Control"] == "no-cache"
    assert "csrftoken" in answer.cookies


def test_an_app_that_is_not_built_says_what_to_do(client, tmp_path, settings):
    settings.FRONTEND_DIST = tmp_path
    answer = client.get("/")
    assert answer.status_code == 503
    assert "python3 manage.py start" in answer.content.decode()


@pytest.mark.parametrize(("path", "json"), [("/nothing/here", False), ("/api/nothing", True), ("/sync/nothing", True)])
def test_a_wrong_address_gets_a_sentence(client, path, json):
    answer = client.get(path)
    assert answer.status_code == 404
    said = answer.json()["sentence"] if json else answer.content.decode()
    assert "There is nothing here under that address" in said


@pytest.mark.django_db
def test_health_answers_when_the_database_does(client):
    assert client.get("/health").json() == {"database": "answers"}
