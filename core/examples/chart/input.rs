//! A file that is asked for, read no further than it may be long.

use std::fs::File;
use std::io::Read;

use levertrain_core::words::{said, word};

/// Byte order marks of encodings that are not read, and what is said of them. The first of them begins as the third does, and
/// no text begins with a zero.
const MARKS: [(&[u8], &str); 4] = [
    (&[0xff, 0xfe, 0, 0], "cli-utf-32"),
    (&[0, 0, 0xfe, 0xff], "cli-utf-32"),
    (&[0xff, 0xfe], "cli-utf-16"),
    (&[0xfe, 0xff], "cli-utf-16"),
];

/// Reads a file of at most so many bytes. Only regular ones: a device may have no end, and a pipe may have no writer, on
/// which opening it would wait for ever.
pub fn read(path: &str, most: usize) -> Result<String, String> {
    let seen = std::fs::metadata(path).map_err(|error| error.to_string())?;
    if seen.is_dir() {
        return Err(word("cli-directory").to_owned());
    }
    if !seen.is_file() {
        return Err(word("cli-not-regular").to_owned());
    }
    let file = File::open(path).map_err(|error| error.to_string())?;
    let mut bytes = Vec::new();
    file.take(most as u64 + 1)
        .read_to_end(&mut bytes)
        .map_err(|error| error.to_string())?;
    if bytes.len() > most {
        let found = seen.len().max(most as u64 + 1).to_string();
        let values = [("found", &*found), ("most", &most.to_string())];
        return Err(said("cli-too-long", &values));
    }
    if let Some((_, what)) = MARKS.iter().find(|(mark, _)| bytes.starts_with(mark)) {
        return Err(word(what).to_owned());
    }
    String::from_utf8(bytes).map_err(|_| word("cli-not-utf-8").to_owned())
}
