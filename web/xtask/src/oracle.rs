//! The independent oracle of the tests: solutions by SymPy and SciPy, from a private Python environment.
//!
//! The same environment brings the accessibility checker the browser tests put into the page, as
//! it is on the package index in a form that needs nothing else.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};

use crate::system_packages::SystemPackages;
use crate::{paths, process};

/// Asks Python where a package lies without running its code.
const FIND_AXE: &str = "import importlib.util, pathlib; \
    spec = importlib.util.find_spec('axe_playwright_python'); \
    print(pathlib.Path(spec.submodule_search_locations[0]) / 'axe.min.js')";

/// The Python environment, and the folder for what it computes.
#[derive(Debug)]
pub struct Oracle {
    /// Where the computed cases are written.
    pub folder: PathBuf,
    /// The accessibility checker, a script for the page.
    pub axe: PathBuf,
    /// Its Python, for the checks that tests hand their own data.
    pub python: PathBuf,
}

impl Oracle {
    /// Makes the environment, or uses the one that is there if the requirements are unchanged.
    ///
    /// # Errors
    /// There is no Python, it cannot make environments, or a package cannot be had.
    pub fn set_up() -> Result<Self> {
        let folder = paths::target().join("oracle");
        let environment = folder.join("venv");
        let python = python_of(&environment);
        let requirements_file = paths::root().join("tests").join("requirements.txt");
        let requirements = fs::read_to_string(&requirements_file)
            .with_context(|| format!("cannot read {}", requirements_file.display()))?;
        // Written last, so it is there only when everything before went well.
        let installed = environment.join("requirements-installed.txt");
        let unchanged = fs::read_to_string(&installed).is_ok_and(|text| text == requirements);
        if unchanged && works(&python) {
            println!("    the Python environment is up to date");
        } else {
            create(&environment)?;
            install(&python, &requirements_file)?;
            fs::write(&installed, &requirements)?;
        }
        let axe = PathBuf::from(process::output(
            process::foreign(&python).args(["-c", FIND_AXE]),
        )?);
        if !axe.is_file() {
            bail!(
                "{} is missing: remove {} and try again",
                axe.display(),
                environment.display()
            );
        }
        Ok(Self {
            folder,
            axe,
            python,
        })
    }

    /// Computes the cases the tests compare with.
    ///
    /// # Errors
    /// The script fails.
    pub fn generate(&self) -> Result<()> {
        let script = paths::root()
            .join("tests")
            .join("oracle")
            .join("generate.py");
        process::run(
            process::foreign(&self.python)
                .current_dir(paths::root())
                .env("PYTHONDONTWRITEBYTECODE", "1")
                .arg(script)
                .arg(&self.folder),
        )
    }
}

fn python_of(environment: &Path) -> PathBuf {
    environment.join(if cfg!(windows) {
        "Scripts/python.exe"
    } else {
        "bin/python"
    })
}

/// An environment breaks when the Python it was made with goes away.
fn works(python: &Path) -> bool {
    process::output(process::foreign(python).arg("--version")).is_ok()
}

fn create(environment: &Path) -> Result<()> {
    println!(
        "    making a Python environment in {}",
        environment.display()
    );
    let mut reason = String::from("there is no `python3` on the search path");
    for name in ["python3", "python"] {
        if let Some(python) = process::find(name) {
            match create_with(&python, environment) {
                Ok(()) => return Ok(()),
                Err(error) => reason = format!("{error:#}"),
            }
        }
    }
    println!("    {reason}");
    install_python()
        .and_then(|()| create_with(Path::new("/usr/bin/python3"), environment))
        .context(
            "the oracle needs Python 3 with its `venv` module: install it \
             (on Debian: apt-get install python3-venv), or leave the oracle out with --quick",
        )
}

fn create_with(python: &Path, environment: &Path) -> Result<()> {
    process::output(
        process::foreign(python)
            .args(["-m", "venv", "--clear"])
            .arg(environment),
    )?;
    Ok(())
}

/// Debian keeps the part that makes environments in a package of its own.
fn install_python() -> Result<()> {
    let packages = SystemPackages::find()?;
    packages.update()?;
    packages.install(&["python3", "python3-venv"])
}

/// The list names every package needed, so that pip adds none of its own choice.
fn install(python: &Path, requirements: &Path) -> Result<()> {
    process::run(
        process::foreign(python)
            .args([
                "-m",
                "pip",
                "install",
                "--disable-pip-version-check",
                "--no-input",
            ])
            .args(["--no-deps", "--requirement"])
            .arg(requirements),
    )
}
