//! The independent oracle of the tests: solutions by SymPy and SciPy, from a private Python environment.
//!
//! The same environment brings the accessibility checker the browser tests put into the page, as
//! it is on the package index in a form that needs nothing else.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};
use sha2::{Digest, Sha256};

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

    /// Computes the cases the tests compare with, unless they are there and made from the same files: nothing in them
    /// is drawn anew from one time to the next.
    ///
    /// # Errors
    /// The script fails, or its files cannot be read.
    pub fn generate(&self) -> Result<()> {
        let scripts = paths::root().join("tests").join("oracle");
        let made_from = digest_of(&[
            files_in(&scripts, "py")?,
            files_in(&paths::root().join("scenarios"), "json")?,
            vec![paths::root().join("tests").join("requirements.txt")],
        ])?;
        let stamp = self.folder.join("made-from.txt");
        if fs::read_to_string(&stamp).is_ok_and(|text| text == made_from) {
            println!("    the cases are up to date");
            return Ok(());
        }
        // Away until all is there again: what is broken off is made anew.
        if stamp.exists() {
            fs::remove_file(&stamp)?;
        }
        self.compute(&scripts.join("generate.py"))?;
        fs::write(&stamp, made_from)?;
        Ok(())
    }

    fn compute(&self, script: &Path) -> Result<()> {
        process::run(
            process::foreign(&self.python)
                .current_dir(paths::root())
                .env("PYTHONDONTWRITEBYTECODE", "1")
                .arg(script)
                .arg(&self.folder),
        )
    }
}

/// The files of a folder with an ending, in order.
fn files_in(folder: &Path, ending: &str) -> Result<Vec<PathBuf>> {
    let entries =
        fs::read_dir(folder).with_context(|| format!("cannot read {}", folder.display()))?;
    let mut files = Vec::new();
    for entry in entries {
        let path = entry?.path();
        if path.extension().is_some_and(|own| own == ending) {
            files.push(path);
        }
    }
    files.sort();
    Ok(files)
}

/// What tells these files, by name and content, from any others.
fn digest_of(groups: &[Vec<PathBuf>]) -> Result<String> {
    let mut digest = Sha256::new();
    for path in groups.iter().flatten() {
        let content = fs::read(path).with_context(|| format!("cannot read {}", path.display()))?;
        digest.update(path.file_name().unwrap_or_default().as_encoded_bytes());
        digest.update((content.len() as u64).to_le_bytes());
        digest.update(content);
    }
    let bytes = digest.finalize();
    Ok(bytes.iter().map(|byte| format!("{byte:02x}")).collect())
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

#[cfg(test)]
mod tests {
    use super::*;

    /// Catches cases that are taken for those of other scripts.
    #[test]
    fn another_name_or_content_is_another_digest() -> Result<()> {
        let folder = paths::target().join("tmp").join("oracle-digest");
        fs::create_dir_all(&folder)?;
        let of = |name: &str, content: &str| -> Result<String> {
            let path = folder.join(name);
            fs::write(&path, content)?;
            digest_of(&[vec![path]])
        };
        let one = of("a.py", "1")?;
        assert_eq!(one, of("a.py", "1")?);
        assert_ne!(one, of("a.py", "2")?);
        assert_ne!(one, of("b.py", "1")?);
        assert_eq!(files_in(&folder, "py")?.len(), 2);
        fs::remove_dir_all(&folder)?;
        Ok(())
    }
}
