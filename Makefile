# The ten verbs of this project; CI calls the same ones.
PYTHON ?= python3.11
VENV := .venv
BIN := $(VENV)/bin
STAMP := $(VENV)/.ready
WORKERS ?= 2

.PHONY: setup demo test check format lint types rooms bench lock clean

setup: $(STAMP)

$(STAMP): requirements.lock pyproject.toml
	@test -x $(BIN)/python || $(PYTHON) -m venv $(VENV)
	@echo "Installing the locked requirements (a few minutes the first time)…"
	@$(BIN)/python -m pip install --quiet --disable-pip-version-check --require-hashes -r requirements.lock
	@$(BIN)/python -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation -e .
	@touch $(STAMP)

demo: setup
	@$(BIN)/fitwright packet examples/drying-rack/job.yaml --to demo-out/drying-rack

test: setup lint types rooms
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

bench: setup
	@for study in bench/[a-z]*.py; do echo "== $$study"; $(BIN)/python $$study || exit 1; done

lock:
	@uv pip compile pyproject.toml --extra solids --group dev --universal --python-version 3.11 \
		--generate-hashes --no-annotate --no-header --quiet --output-file requirements.lock

clean:
	@rm -rf $(VENV) demo-out build dist
