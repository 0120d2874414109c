//! Where a search stands that writes to a file: in another one beside that, for it to go on from when it was interrupted.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use levertrain_core::words::said;

use crate::lines::{SHARD_BYTES, read};

pub struct Standing {
    file: PathBuf,
    /// How often it is written.
    every: Duration,
    kept: Instant,
}

impl Standing {
    /// Beside the file that the finds will be in.
    pub fn beside(out: &Path, every: Duration) -> Self {
        Self {
            file: with(out, ".state"),
            every,
            kept: Instant::now(),
        }
    }

    pub fn name(&self) -> String {
        self.file.to_string_lossy().into_owned()
    }

    /// Where the search stood, if it was interrupted.
    pub fn read(&self) -> Result<Option<String>, String> {
        if !self.file.exists() {
            return Ok(None);
        }
        // It holds the finds of the shard, and what is left to do, which is less.
        read(&self.name(), SHARD_BYTES).map(Some)
    }

    /// Keeps where it stands, where that was last done long enough ago. Written under another name first, so that there is
    /// always a whole one.
    pub fn keep(&mut self, standing: impl FnOnce() -> String) -> Result<(), String> {
        if self.kept.elapsed() < self.every {
            return Ok(());
        }
        let new = with(&self.file, ".new");
        let written = fs::write(&new, standing()).and_then(|()| fs::rename(&new, &self.file));
        self.kept = Instant::now();
        written.map_err(|error: io::Error| said("cli-unwritten", &[("error", &error.to_string())]))
    }

    /// Once the finds are written there is nothing to go on with.
    pub fn forget(&self) {
        // Where there is none, the search ended before one was kept.
        let _ = fs::remove_file(&self.file);
    }
}

/// Whether a file is put in the place of what has this name: a device or a pipe stays what it is, and is written to.
pub fn is_put_there(out: &Path) -> bool {
    fs::metadata(out).map_or(true, |found| found.is_file())
}

fn with(file: &Path, end: &str) -> PathBuf {
    let mut name = file.as_os_str().to_owned();
    name.push(end);
    name.into()
}
