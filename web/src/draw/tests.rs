//! What the tests of all drawings need.

use std::path::Path;

use crate::document::session::Session;

/// Name and text of each of our scenarios, in order.
pub fn scenarios() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios");
    let mut files: Vec<(String, String)> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| {
            // Their schema stands beside them.
            let name = path.file_name().unwrap().to_string_lossy();
            name.ends_with(".json") && name.starts_with(char::is_numeric)
        })
        .map(|path| {
            let name = path.file_stem().unwrap().to_string_lossy().into_owned();
            (name, std::fs::read_to_string(path).unwrap())
        })
        .collect();
    assert!(files.len() >= 11, "too few scenarios");
    files.sort();
    files
}

/// Each of our scenarios, open.
pub fn sessions() -> Vec<(String, Session)> {
    let open = |(name, text): (String, String)| (name, Session::open(&text).unwrap());
    scenarios().into_iter().map(open).collect()
}

/// The scenario whose name begins so, open.
pub fn session(start: &str) -> Session {
    let mut all = scenarios().into_iter();
    let (_, text) = all.find(|(name, _)| name.starts_with(start)).unwrap();
    Session::open(&text).unwrap()
}
