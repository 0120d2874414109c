//! Where in a text the place of a problem is.

use super::reader::{MOST_LEVELS, Reader, Stop, read};
use crate::base::problem::escaped;

/// A line of a text and a column in it, both from 1. Columns are counted in UTF-16 units, as browsers
/// count the letters of a field.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Spot {
    /// The line.
    pub line: usize,
    /// The column in it.
    pub column: usize,
}

/// Where the place of a problem is in the text that has it: the value that its path leads to, or the
/// last on the way that is there. In a text that is not JSON it is where that ends.
pub fn spot(text: &str, place: &str) -> Spot {
    // Some editors begin a file with a byte order mark.
    let json = text.strip_prefix('\u{feff}').unwrap_or(text);
    let at = match read(json) {
        Err(Stop { at, .. }) => at.saturating_sub(1),
        Ok(_) => {
            let mut reader = Reader { text: json, at: 0 };
            reader.after_blanks();
            lead(&mut reader, place)
        }
    };
    let mut at = at + text.len() - json.len();
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    let before = text.get(..at).unwrap_or_default();
    let line = before.rsplit('\n').next().unwrap_or_default();
    Spot {
        line: before.matches('\n').count() + 1,
        column: line.encode_utf16().count() + 1,
    }
}

/// Goes along a path from the value that comes next; where it ends.
///
/// Nothing is kept of what is passed by: paths of all values would be far longer than the text.
fn lead(reader: &mut Reader<'_>, path: &str) -> usize {
    let mut path = path;
    // Every turn goes one level down.
    for _ in 0..=MOST_LEVELS {
        let here = reader.at;
        let bytes = reader.text.as_bytes();
        let found = match bytes.get(here) {
            Some(b'{') => field(reader, path),
            Some(b'[') => item(reader, path),
            _ => return here,
        };
        let Ok(Some((at, rest))) = found else {
            return here;
        };
        reader.at = at;
        path = rest;
    }
    reader.at
}

/// The value of the field that a path begins with, and the rest of the path.
fn field<'p>(reader: &mut Reader<'_>, path: &'p str) -> Result<Option<(usize, &'p str)>, Stop> {
    let (name, is_said) = match path.strip_prefix(", ") {
        Some(member) => (member, true),
        None => (path.strip_prefix('.').unwrap_or(path), false),
    };
    let (mut found, mut longest) = (None, 0);
    if name.is_empty() {
        return Ok(None);
    }
    reader.at += 1;
    if reader.after_blanks() == Some(b'}') {
        return Ok(None);
    }
    loop {
        reader.after_blanks();
        let mut key = escaped(reader.string()?);
        if is_said {
            // A member is said, by the words of its field.
            key = key.replace('_', " ");
        }
        reader.after_blanks();
        reader.at += 1;
        reader.after_blanks();
        // A name may go on as the path of another does.
        if let Some(rest) = after(name, &key)
            && key.len() > longest
        {
            longest = key.len();
            found = Some((reader.at, rest));
        }
        reader.value(0)?;
        if reader.goes_on(b'}')? {
            return Ok(found);
        }
    }
}

/// The item of a list that a path begins with, and the rest of the path.
fn item<'p>(reader: &mut Reader<'_>, path: &'p str) -> Result<Option<(usize, &'p str)>, Stop> {
    let split = path.strip_prefix('[').and_then(|path| path.split_once(']'));
    let Some((index, rest)) = split else {
        return Ok(None);
    };
    let Ok(index) = index.parse::<usize>() else {
        return Ok(None);
    };
    reader.at += 1;
    if reader.after_blanks() == Some(b']') {
        return Ok(None);
    }
    for _ in 0..index {
        reader.value(0)?;
        if reader.goes_on(b']')? {
            return Ok(None);
        }
    }
    reader.after_blanks();
    Ok(Some((reader.at, rest)))
}

/// What comes after the name of a field, which a place cuts where it is long.
fn after<'p>(path: &'p str, key: &str) -> Option<&'p str> {
    if let Some(cut) = path.strip_suffix('…')
        && key.starts_with(cut)
    {
        return Some("");
    }
    let rest = path.strip_prefix(key)?;
    (rest.is_empty() || rest.starts_with(['.', '[', ','])).then_some(rest)
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str =
        "{\n  \"a\": [1, {\"b\": 2,\n  \"large_sun\": 3}],\n  \"a.b\": \"😀\", \"ü\u{7}\": [4]\n}";

    #[track_caller]
    fn check(text: &str, place: &str, line: usize, column: usize) {
        assert_eq!(spot(text, place), Spot { line, column }, "{place}");
    }

    #[test]
    fn paths_lead_to_values() {
        // The control letter in a name may not stand in JSON as it is.
        let text = TEXT.replace('\u{7}', "\\u0007");
        check(&text, "file", 1, 1);
        check(&text, "a", 2, 8);
        check(&text, "a[0]", 2, 9);
        check(&text, "a[1].b", 2, 18);
        check(&text, "a[1], large sun", 3, 16);
        check(&text, "a.b", 4, 10);
        // The face is two units.
        check(&text, "ü\\u{7}[0]", 4, 28);
        check(&text, "ü\\u…", 4, 27);
    }

    #[test]
    fn paths_that_end_early_lead_as_far_as_they_can() {
        let text = TEXT.replace('\u{7}', "\\u0007");
        check(&text, "a[2]", 2, 8);
        check(&text, "a[99999999999999999999999].b", 2, 8);
        check(&text, "a[1].c", 2, 12);
        check(&text, "a[0].c", 2, 9);
        check(&text, "nowhere", 1, 1);
        check("  {}", "", 1, 3);
        check("\u{feff}{\"a\": 1}", "a", 1, 8);
    }

    #[test]
    fn what_is_not_json_is_where_it_stops() {
        check("{\n nope}", "line 2, column 2", 2, 2);
        check("{\"ä\n\": 1}", "line 1, column 5", 1, 4);
        check("[1\n", "line 1, column 3", 1, 3);
        check("", "line 1, column 0", 1, 1);
    }
}
