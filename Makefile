# The daily commands; `make` alone lists them. PYTHON picks the interpreter: make test PYTHON=python3.12
PYTHON ?= python3
VENV ?= .venv
HOST ?= 127.0.0.1
PORT ?=
JOBS ?= 2
RACKS ?= 131072
SCHEDULER ?=
SEEDS ?= 156:160
PY := $(VENV)/bin/python
OPEN := $(PY) -m coachlib --host $(HOST) $(if $(PORT),--port $(PORT))
RESULTS := build/tests
PIP := $(PY) -m pip install --quiet --disable-pip-version-check

comma := ,

.DEFAULT_GOAL := help
.PHONY: help coach app test lint format bench bench-season bench-faults store carry-table clean

help: ## list these commands
	@sed -n 's/^\([a-z-]*\):.*## /  make \1\t/p' Makefile

coach: $(VENV)/.with-core ## open the front page in your browser (PORT=..., HOST=...)
	@$(OPEN)

app: $(VENV)/.with-core ## the same pages for a tablet, without notebooks (HOST=0.0.0.0 lets it in)
	@$(OPEN) --app

test: lint ## check everything: style, types, layers, tests, browser tests, notebooks
	@rm -rf $(RESULTS) build/home && mkdir -p $(RESULTS) build/home
	$(PY) -m pytest -q -n $(JOBS) --dist worksteal --durations=20 -m "not browser" --junitxml=$(RESULTS)/unit.xml tests
	$(PY) -m pytest -q -n $(JOBS) --dist worksteal -m browser --junitxml=$(RESULTS)/browser.xml tests/notebooks
	HOME=$(CURDIR)/build/home COACHLIB_DATA=$(CURDIR)/build/home $(PY) -m pytest -q -n $(JOBS) --dist loadfile \
		--nbval --nbval-current-env --nbval-sanitize-with tests/nbval_sanitize.cfg \
		--junitxml=$(RESULTS)/notebooks.xml notebooks
	@$(PY) tests/report.py $(RESULTS)

lint: $(VENV)/.with-test ## check style, formatting, types and layers
	$(PY) -m ruff check .
	$(PY) -m ruff format --check .
	$(PY) -m mypy
	$(VENV)/bin/lint-imports

format: $(VENV)/.with-test ## format the code
	$(PY) -m ruff check --fix .
	$(PY) -m ruff format .

bench: $(VENV)/.with-test ## measure speed and memory, one line a figure
	@$(PY) tests/benchmarks/run.py

bench-season: $(VENV)/.with-pins ## play seasons on hidden lanes (SEEDS=..., SCHEDULER=tcp://...); resumes if interrupted
	$(PY) -m tests.benchmarks.season --seeds $(SEEDS) --out build/season $(if $(SCHEDULER),--scheduler $(SCHEDULER))

bench-faults: $(VENV)/.with-test ## try the log: killed programs, two writers, full disks, hostile texts, a season
	@$(PY) tests/benchmarks/faults.py

store: $(VENV)/.with-test ## run all notebooks and store what they show
	COACHLIB_DATA=$(CURDIR)/build/home $(PY) -m nbconvert --to notebook --execute --inplace --log-level WARN \
		--ExecutePreprocessor.record_timing=False --ExecutePreprocessor.store_widget_state=False notebooks/*.ipynb

carry-table: $(VENV)/.with-pins ## simulate the racks behind the carry table (RACKS=..., SCHEDULER=tcp://...); resumes if interrupted
	$(PY) -m coachlib.physics.pins.build.sweep --racks $(RACKS) --out build/carry $(if $(SCHEDULER),--scheduler $(SCHEDULER))
	$(PY) -m coachlib.physics.pins.build.carry_ship --racks build/carry --out data

clean: ## remove what these commands made; the notebooks you ran (.live) stay
	rm -rf $(VENV) build dist .pytest_cache .mypy_cache .ruff_cache .import_linter_cache .hypothesis
	rm -rf tests/notebooks/screenshots
	find coachlib tests -name __pycache__ -type d -prune -exec rm -rf {} +

# One environment, filled as far as a command needs it, and again when pyproject.toml changes.
$(VENV)/.with-core: pyproject.toml | $(PY)
	$(PIP) -e .
	@touch $@

$(VENV)/.with-test: pyproject.toml | $(PY)
	$(PIP) -e '.[test,pins]'
	@touch $@ $(VENV)/.with-core $(VENV)/.with-pins

$(VENV)/.with-pins: pyproject.toml | $(PY)
	$(PIP) -e '.[pins$(if $(SCHEDULER),$(comma)cluster)]'
	@touch $@ $(VENV)/.with-core

$(PY):
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || { \
		echo "$(PYTHON) is missing or older than 3.11. Name a newer one: make coach PYTHON=python3.12"; exit 1; }
	@$(PYTHON) -m venv $(VENV) || { rm -rf $(VENV); \
		echo "$(PYTHON) cannot make an environment. On Debian and Ubuntu first run: apt-get install python3-venv"; exit 1; }
