//! What the tests of all drawings need.

use std::cell::Cell;
use std::path::Path;

use levertrain_core::words::Catalogue;

use crate::document::session::Session;

thread_local! {
    /// Whether scenarios are to be those of a German page.
    static GERMAN: Cell<bool> = const { Cell::new(false) };
}

/// Goes through tests of drawings once more with all that is in them in German, whose words are longer.
pub fn again_in_german(tests: &[fn()]) {
    Catalogue::of_language("de").unwrap().speak();
    GERMAN.set(true);
    for test in tests {
        test();
    }
}

/// A scenario as the page opens it in German.
fn in_german(stem: &str, text: &str) -> String {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios/words/de.json");
    let words = std::fs::read_to_string(file).unwrap();
    // Those of this scenario alone come first.
    let [own, of_all] = [true, false].map(|own| {
        words.lines().filter_map(move |line| {
            let (said, other) = line.trim().trim_end_matches(',').split_once("\": \"")?;
            let said = said.strip_prefix('"')?;
            let named = said
                .strip_prefix(stem)
                .and_then(|said| said.strip_prefix('/'));
            let said = if own { named? } else { said };
            Some((format!(": \"{said}\""), format!(": \"{other}")))
        })
    });
    let words: Vec<(String, String)> = own.chain(of_all).collect();
    let mut text = text.to_owned();
    for (said, other) in words {
        // What is translated already is found no more.
        text = text.replace(&said, &other);
    }
    text
}

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
            let text = std::fs::read_to_string(path).unwrap();
            let text = if GERMAN.get() {
                in_german(&name, &text)
            } else {
                text
            };
            (name, text)
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
