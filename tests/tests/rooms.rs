//! Rooms of the sources: each folder uses only itself and those named before it, so that there
//! are no circles and a newcomer can read them in order.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, ensure};
use levertrain_tests::files::root;

const CORE: &[&str] = &[
    "base",
    "json",
    "model",
    "train",
    "solve",
    "load",
    "teach",
    "words",
    "report",
    "lesson",
    "faults",
    "swaps",
    "transient",
    "traction",
    "sources",
    "edit",
    "exercise",
    "search",
    "layouts",
];
const WEB: &[&str] = &["units", "motion", "draw", "document", "boundary"];
const WWW: &[&str] = &[
    "kit", "state", "work", "address", "stage", "edit", "search", "learn", "panels", "page",
    "course",
];

/// The drawings, each with those it may use: levers stand on the columns of the half-section.
const DRAWINGS: &[(&str, &[&str])] = &[
    ("end_view", &[]),
    ("finds", &[]),
    ("flow", &[]),
    ("operating", &[]),
    ("plot", &[]),
    ("section", &[]),
    ("swaps", &[]),
    ("traction", &[]),
    ("timings", &[]),
    ("transient", &[]),
    ("lever", &["section"]),
];

#[test]
fn the_core_uses_only_rooms_before_its_own() -> Result<()> {
    check(&root().join("core/src"), CORE, "rs", rust_uses)
}

#[test]
fn boundary_and_drawings_use_only_rooms_before_their_own() -> Result<()> {
    check(&root().join("web/src"), WEB, "rs", rust_uses)
}

#[test]
fn the_page_imports_only_from_rooms_before_its_own() -> Result<()> {
    check(&root().join("www"), WWW, "js", script_uses)
}

#[test]
fn drawings_use_only_what_all_share_and_those_they_stand_on() -> Result<()> {
    let folder = root().join("web/src/draw");
    let is_drawing = |name: &str| DRAWINGS.iter().any(|(drawing, _)| *drawing == name);
    let (mut wrong, mut seen) = (Vec::new(), Vec::new());
    for file in files_in(&folder, "rs")? {
        let within = file.strip_prefix(&folder)?.with_extension("");
        let own = within.components().next().context("a file has a name")?;
        let own = own.as_os_str().to_string_lossy().into_owned();
        if own == "mod" {
            continue;
        }
        seen.push(own.clone());
        let text = fs::read_to_string(&file)?;
        let code = code_of(&text);
        let mut uses = names_after(code, "crate::draw::");
        let inner = file.strip_prefix(folder.join(&own)).map_or(0, depth);
        let out = "super::".repeat(inner + 1);
        uses.extend(names_after(code, &out));
        let mut allowed = DRAWINGS.iter().filter(|(drawing, _)| *drawing == own);
        let allowed = allowed.next().map_or(&[][..], |(_, others)| others);
        let others = uses.iter().filter(|used| is_drawing(used) && **used != own);
        let not_allowed = others.filter(|used| !allowed.contains(&used.as_str()));
        wrong.extend(not_allowed.map(|used| format!("{} uses {used}", within.display())));
    }
    ensure!(wrong.is_empty(), "{}", wrong.join("\n"));
    for (drawing, _) in DRAWINGS {
        ensure!(
            seen.iter().any(|own| own == drawing),
            "there is no {drawing}"
        );
    }
    for entry in fs::read_dir(&folder)? {
        let path = entry?.path();
        let name = path.file_name().and_then(|name| name.to_str());
        // Files are what all drawings share.
        ensure!(
            !path.is_dir() || name.is_some_and(is_drawing),
            "{} is no drawing that is listed",
            path.display()
        );
    }
    Ok(())
}

/// Fails with every use of a room that is not listed up to the user's own.
fn check(
    folder: &Path,
    rooms: &[&str],
    ending: &str,
    uses: fn(&str, usize) -> Vec<String>,
) -> Result<()> {
    let mut wrong = Vec::new();
    for (own, room) in rooms.iter().enumerate() {
        let room_folder = folder.join(room);
        let files = files_in(&room_folder, ending)?;
        ensure!(!files.is_empty(), "the room {room} is empty");
        for file in files {
            let text = fs::read_to_string(&file)?;
            let within = file.strip_prefix(&room_folder)?;
            for used in uses(&text, depth(within)) {
                if !rooms[..=own].contains(&used.as_str()) {
                    wrong.push(format!("{room}/{} uses {used}", within.display()));
                }
            }
        }
    }
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        let name = path.file_stem().and_then(|name| name.to_str());
        let is_source = path.is_dir() && !files_in(&path, ending)?.is_empty();
        if is_source && !rooms.contains(&name.unwrap_or_default()) {
            wrong.push(format!("{} is in no room", path.display()));
        }
    }
    ensure!(wrong.is_empty(), "{}", wrong.join("\n"));
    Ok(())
}

/// How many modules lie between the file's own and its room's.
fn depth(within: &Path) -> usize {
    within.components().count() - usize::from(within.ends_with("mod.rs"))
}

fn files_in(folder: &Path, ending: &str) -> Result<Vec<PathBuf>> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        let name = path.file_stem().and_then(|name| name.to_str());
        if name.is_some_and(|name| name.ends_with("tests")) {
            // Tests may look anywhere.
        } else if path.is_dir() {
            files.extend(files_in(&path, ending)?);
        } else if path.extension().is_some_and(|own| own == ending) {
            files.push(path);
        }
    }
    Ok(files)
}

/// The first name of each path that leaves the module, outside tests.
fn rust_uses(text: &str, depth: usize) -> Vec<String> {
    let code = code_of(text);
    let lines = code
        .lines()
        .filter(|line| !line.trim_start().starts_with("//"));
    let mut uses = Vec::new();
    for line in lines {
        uses.extend(names_after(line, "crate::"));
        let out_of_the_room = "super::".repeat(depth + 1);
        uses.extend(names_after(line, &out_of_the_room));
    }
    uses
}

/// A source without its tests.
fn code_of(text: &str) -> &str {
    let tests = text.find("#[cfg(test)]\nmod tests {");
    &text[..tests.unwrap_or(text.len())]
}

/// The folder of each module that is imported, now or when it is wanted; not the built engine's,
/// which no room holds.
fn script_uses(text: &str, _: usize) -> Vec<String> {
    let starts = ["from \"../", "import(\"../", "import \"../"];
    let used = |line| {
        starts
            .iter()
            .flat_map(move |start| names_after(line, start))
    };
    let rooms = text.lines().flat_map(used);
    rooms.filter(|room| room != "engine").collect()
}

fn names_after(line: &str, start: &str) -> Vec<String> {
    let is_part = |c: char| c.is_alphanumeric() || c == '_';
    line.match_indices(start)
        // `$crate::` in a macro is this crate too, `my_crate::` is not.
        .filter(|&(at, _)| !line[..at].ends_with(is_part))
        .map(|(at, _)| {
            let name: String = line[at + start.len()..]
                .chars()
                .take_while(|&c| is_part(c))
                .collect();
            if name.is_empty() {
                "{…}: name the room".to_owned()
            } else {
                name
            }
        })
        .collect()
}

#[test]
fn uses_are_seen() {
    let text = "\
        //! A comment may name [`crate::words`].\n\
        use crate::base::Problem;\n\
        use super::super::train::Train;\n\
        fn f() { crate::load::power(); levertrain_crate::x(); }\n\
        use crate::{solve, words};\n\
        #[cfg(test)]\nmod tests {\n    use crate::report::Report;\n}\n";
    let named = "{…}: name the room";
    assert_eq!(rust_uses(text, 1), ["base", "train", "load", named]);
    assert_eq!(rust_uses(text, 2), ["base", "load", named]);
    let script = "import { h } from \"../kit/dom.js\";\nconst x = \"../no/import.js\";\n\
        load = () => import(\"../panels/share.js\");\n";
    assert_eq!(script_uses(script, 0), ["kit", "panels"]);
}
