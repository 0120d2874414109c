//! Installing packages of a Debian or Ubuntu system, the one kind of system this crate sets up.

use std::io::IsTerminal;
use std::path::PathBuf;
use std::process::Command;

use anyhow::{Context, Result, bail};

use crate::process;

/// The way to install packages here: `apt-get`, as root or through `sudo`.
pub struct SystemPackages {
    apt_get: PathBuf,
    sudo: Option<PathBuf>,
}

impl SystemPackages {
    /// Finds out whether packages can be installed.
    ///
    /// # Errors
    /// The system is not of the Debian family, or we are not root and there is no `sudo`.
    pub fn find() -> Result<Self> {
        let os_release = std::fs::read_to_string("/etc/os-release").unwrap_or_default();
        if !is_debian_like(&os_release) {
            bail!("this system is not Debian or Ubuntu");
        }
        let apt_get = process::find("apt-get").context("`apt-get` is not on the search path")?;
        let sudo = if is_root()? {
            None
        } else {
            Some(process::find("sudo").context("not running as root, and there is no `sudo`")?)
        };
        Ok(Self { apt_get, sudo })
    }

    /// Reads the package lists anew. To be done before [`SystemPackages::offers`] and
    /// [`SystemPackages::install`], as a fresh machine has none.
    ///
    /// # Errors
    /// `apt-get` fails.
    pub fn update(&self) -> Result<()> {
        process::run(self.apt_get().args(["--quiet", "update"]))
    }

    /// The names of all packages on offer that start with `prefix`.
    ///
    /// # Errors
    /// The package lists cannot be read.
    pub fn offers(&self, prefix: &str) -> Result<Vec<String>> {
        let names = process::output(process::foreign("apt-cache").args(["pkgnames", prefix]))?;
        Ok(names.lines().map(str::to_owned).collect())
    }

    /// Installs packages and what they cannot do without.
    ///
    /// # Errors
    /// `apt-get` fails; it has then said why.
    pub fn install(&self, packages: &[&str]) -> Result<()> {
        println!(
            "    installing {} from the system's packages",
            packages.join(", ")
        );
        process::run(
            self.apt_get()
                .args(["--quiet", "install", "--yes", "--no-install-recommends"])
                .args(packages),
        )
    }

    fn apt_get(&self) -> Command {
        let mut command = match &self.sudo {
            None => process::foreign(&self.apt_get),
            Some(sudo) => {
                let mut command = process::foreign(sudo);
                // Without a terminal nobody can type a password: fail instead of waiting.
                if !std::io::stdin().is_terminal() {
                    command.arg("--non-interactive");
                }
                command
                    .arg("DEBIAN_FRONTEND=noninteractive")
                    .arg(&self.apt_get);
                command
            }
        };
        command.env("DEBIAN_FRONTEND", "noninteractive");
        command
    }
}

fn is_root() -> Result<bool> {
    Ok(process::output(process::foreign("id").arg("-u"))? == "0")
}

/// Reads the `ID` and `ID_LIKE` lines of `/etc/os-release`.
fn is_debian_like(os_release: &str) -> bool {
    os_release
        .lines()
        .filter_map(|line| {
            line.strip_prefix("ID=")
                .or_else(|| line.strip_prefix("ID_LIKE="))
        })
        .flat_map(|value| value.trim_matches('"').split_whitespace())
        .any(|id| id == "debian" || id == "ubuntu")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn debian_and_its_relatives_are_recognised() {
        let rows = [
            ("ID=debian\n", true),
            ("NAME=\"Ubuntu\"\nID=ubuntu\nID_LIKE=debian\n", true),
            ("ID=derived\nID_LIKE=\"ubuntu debian\"\n", true),
            ("ID=\"rpmish\"\nID_LIKE=\"other\"\n", false),
            ("BUILD_ID=debian\n", false),
            ("", false),
        ];
        for (text, expected) in rows {
            assert_eq!(is_debian_like(text), expected, "{text:?}");
        }
    }
}
