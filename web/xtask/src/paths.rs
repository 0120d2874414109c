//! Where things are, so that every command works from any folder of the repository.

use std::path::{Path, PathBuf};

/// The top of the repository.
pub fn root() -> &'static Path {
    // Known when the crate is compiled; cargo compiles it again when the repository moves.
    const HERE: &str = env!("CARGO_MANIFEST_DIR");
    let here = Path::new(HERE);
    here.ancestors().nth(2).unwrap_or(here)
}

/// Cargo's own output folder, which also holds everything this crate makes for itself.
pub fn target() -> PathBuf {
    match std::env::var_os("CARGO_TARGET_DIR") {
        Some(folder) if !folder.is_empty() => root().join(folder),
        _ => root().join("target"),
    }
}

/// The built site that is served and tested.
pub fn site() -> PathBuf {
    target().join("site")
}
