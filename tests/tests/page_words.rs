//! What a person reads on the page are messages of the catalogue: no literal of its scripts is a word,
//! and every message that they ask for is there.

use std::collections::BTreeSet;
use std::fs;

use anyhow::{Result, ensure};
use levertrain_tests::files::{root, scripts};
use levertrain_tests::script_literals::{ScriptLiteral, script_literals};

/// Files left out, and why.
const LEFT_OUT: &[(&str, &str)] = &[
    (
        "www/kit/before.js",
        "what is said before there is a catalogue, or why there is none",
    ),
    (
        "www/embedding.js",
        "the page that it belongs to is in English",
    ),
    (
        "www/frame.js",
        "what it says is for whoever writes the page around it, as what a console says",
    ),
    (
        "www/course/scorm.js",
        "the standard's own names of fields and values",
    ),
    (
        "www/course/scorm12.js",
        "the standard's own names of fields and values",
    ),
    (
        "www/course/scorm2004.js",
        "the standard's own names of fields and values",
    ),
    (
        "www/course/statement.js",
        "the standard's own names of fields and values",
    ),
    ("www/learn/manifest.js", "markup that programs read"),
    (
        "www/service_worker.js",
        "it runs without a page; what it throws, the browser's console shows",
    ),
];
/// Attributes whose values are no words, besides `data-…`.
const ATTRIBUTES: &[&str] = &[
    "accept",
    "aria-busy",
    "aria-checked",
    "aria-controls",
    "aria-current",
    "aria-describedby",
    "aria-expanded",
    "aria-hidden",
    "aria-labelledby",
    "aria-pressed",
    "autocapitalize",
    "autocomplete",
    "class",
    "column",
    "display",
    "focusable",
    "for",
    "id",
    "part",
    "rel",
    "role",
    "scope",
    "shows",
    "spellcheck",
    "step",
    "target",
    "type",
    "wrap",
];
/// Attributes, and functions, whose values are read or heard.
const READ_ATTRIBUTES: &[&str] = &[
    "alt",
    "aria-label",
    "aria-valuetext",
    "placeholder",
    "title",
];
const READ_ARGUMENTS: &[&str] = &["append", "hint", "report", "replaceChildren", "unseen"];
/// Functions whose first argument names something.
const NAMING: &[&str] = &[
    "CustomEvent",
    "Event",
    "Failure",
    "addEventListener",
    "canvas",
    "column",
    "createElement",
    "createElementNS",
    "define",
    "draw",
    "drawing",
    "element",
    "emit",
    "figure",
    "get",
    "getAttribute",
    "h",
    "hasAttribute",
    "icon",
    "import",
    "includes",
    "input",
    "listIn",
    "mark",
    "matchMedia",
    "matches",
    "numberIn",
    "paint",
    "querySelector",
    "querySelectorAll",
    "removeAttribute",
    "removeEventListener",
    "removeProperty",
    "setAttribute",
    "setProperty",
    "siteFile",
    "slider",
    "startsWith",
    "svg",
    "toggleAttribute",
    "unit",
    "written",
];
/// Lists of names: of events, of attributes, of what the element can show.
const LISTS: &[&str] = &[
    "const event of [",
    "const event of events ? [",
    "const name of [",
    "observedAttributes = [",
    "BANDS = [",
    "CAUSES = [",
    "FURNISHING = [",
    "HEEDED = [",
    "LOCKS = [",
    "READ_ONCE = [",
    "THEMES = [",
    "VIEWS = [",
];
/// Letters, units and names of standards, the same in every language.
const SIGNS: &[&str] = &[
    "Hz",
    "N/mm²",
    "SCORM 1.2",
    "SCORM 2004 4th Edition",
    "xAPI",
    "T = c·Δn",
    "i",
    "η",
];
/// Other literals that are no messages, by what they are.
const NO_WORDS: &[(&str, &[&str])] = &[
    (
        "parts of sources and outputs",
        &[
            "driven",
            "kept",
            "levers",
            "moves",
            "sources-levers",
            "vertical",
            "region",
            "shares",
            "sources-…",
            "sources-members",
            "sources-standstills",
            "sources-torques",
            "source-limits",
            "sources",
            "sources-back",
            "sources-to-panel",
        ],
    ),
    (
        "fields of a file that say what is otherwise assumed, and parts that change them",
        &[
            "dynamics",
            "engine_inertia",
            "fill_time",
            "final_drive",
            "full_torque",
            "load_inertia",
            "shafts",
            "traction-stated",
            "vehicle",
            "wheel_radius",
        ],
    ),
    (
        "events that end an instant, keys, and where something comes into sight",
        &[
            "preview",
            "whole",
            "Home",
            "PageUp PageDown",
            "PageDown PageUp",
            "center",
        ],
    ),
    (
        "parts of a search for teeth, and how it is run elsewhere",
        &[
            "across",
            "up",
            "boxes",
            "cargo run --release -p levertrain-core --example search -- task.json …",
            "cargo run --release -p levertrain-core --example layouts -- …",
            "--out finds.jsonl",
            "--shard 1/2 --out part-1.jsonl",
            "--merge part-1.jsonl,part-2.jsonl",
            "task.json --out layouts.jsonl",
            "find-distance-…",
            "…-efficient-…",
            "finder.js",
            "layouter.js",
            "find",
            "search",
            "layouts-resume",
            "task.json --shard 1/2 --out part-1.jsonl",
            "task.json",
            "find-plot",
            "find-resume",
            "levertrain … …",
            "null",
        ],
    ),
    (
        "units of the road and parts of a train on it",
        &[
            "force",
            "assumptions",
            "traction",
            "traction-plot",
            "pick",
            "s",
            "slope",
            "traction-…",
            "N",
            "ft",
            "km/h",
            "lbf",
            "m",
            "mph",
        ],
    ),
    (
        "parts of exercises, and what marks are told by",
        &[
            ".body",
            "start",
            "handout-answers",
            "handout-blank",
            "handout-which",
            "opened",
            "faults",
            "file",
            "levertrain-carried",
            "made",
            "class-back",
            "class-end",
            "class-next",
            "class-show",
            "class-…",
            "hidden",
            "hide",
            "walk-bar-close",
            "walk-bar-next",
            "walk-bar-previous",
            "option",
            "400px",
            ":host { display: block; min-height: 36rem; }",
            "checkbox",
            "closed",
            "Alt+ArrowDown",
            "Escape",
            "Alt+ArrowUp",
            "[hidden]",
            "details:not([open])",
            "[data-move=\"… …\"]:enabled",
            "[data-remove=\"…\"]",
            "exercise-add",
            "exercise-back",
            "exercise-drop",
            "exercise-take",
            "file …",
            "levertrain sheet …",
            "li",
            "scenario …",
            "walk-first",
            "…-pace",
            "exercise-begin",
            "exercise-choice",
            "exercise-kind",
            "exercise-next",
            "exercise-open",
            "exercise-save",
            "exercise-set-kind",
            "exercise-set-part",
            "exercise-set-range",
            "exercise-set-set",
            "exercise-set-shaft",
            "exercise-sheet",
            "exercise-stop",
            "exercise-try",
            "exercise-walk-add",
            "exercises",
            "part",
            "radio",
            "right",
            "text",
            "wrong",
        ],
    ),
    (
        "lessons for course systems: files, what they are for, and what these are asked",
        &[
            "Commit",
            "GetValue",
            "LICENSE",
            "POST",
            "PT…H…M…S",
            "PUT",
            "SetValue",
            "activities/state",
            "activity_id",
            "actor",
            "address",
            "application/json",
            "auth",
            "completed",
            "connect-src 'self'",
            "connect-src 'self' https: http:",
            "course",
            "css",
            "edit",
            "element.js",
            "endpoint",
            "engine",
            "engine/levertrain.js",
            "engine/levertrain_packer",
            "learn/handout_paper",
            "learn/in_class",
            "css/in_class",
            "css/handout",
            "fonts",
            "imsmanifest.xml",
            "initialized",
            "kit",
            "learn",
            "lesson",
            "lesson.js",
            "lesson.json",
            "levertrain-…",
            "mark.svg",
            "opener",
            "package-form",
            "package-sheet",
            "page",
            "passed",
            "progress",
            "scorm12",
            "scorm2004",
            "service_worker.js",
            "sheet.json",
            "statements",
            "terminated",
            "text/plain",
            "walk",
            "walker.js",
            "words/….ftl",
            "work",
            "xapi",
            "…-….zip",
            "…GetErrorString",
            "…GetLastError",
            "…Z",
            "…_bg.wasm",
        ],
    ),
    (
        "attributes of the element, and what they may ask for",
        &[
            "about", "all", "controls", "header", "losses", "panels", "road", "ranges", "scenario",
            "shows", "units", "with",
        ],
    ),
    (
        "lists of how a view is embedded, and what its markup is made of",
        &[
            "%2C",
            "&quot;",
            "embed-form",
            "embed-language",
            "embed-locked",
            "embed-shown",
            "embed-theme",
            "iframe",
            "lazy",
            "lever-train",
        ],
    ),
    ("what can be locked", &["elements", "settings", "train"]),
    (
        "settings, and words in them",
        &["contrast", "dark-contrast", "merged", "one_module"],
    ),
    (
        "names of drawings",
        &["end", "flow", "lever", "operating", "section"],
    ),
    (
        "what can be taken away, as what, and what is in it",
        &[
            "csv",
            "exact",
            "group",
            "image/png",
            "number",
            "png",
            "png-light",
            "stage",
            "svg-light",
            "taken",
            "words",
        ],
    ),
    (
        "parts of fault finding, and how good explanations are",
        &[
            "beside",
            "both",
            "faults-does",
            "faults-explains",
            "first",
            "second",
            "single",
        ],
    ),
    (
        "parts of a shift in time, its drawings, its worker and fields of its plan",
        &[
            "from",
            "in-time",
            "input_speed",
            "input_torque",
            "output_torque",
            "timed-cut-…",
            "timed-drop",
            "timed-figures",
            "timed-keep",
            "timed-known",
            "timed-map-plot",
            "timed-on-stage",
            "timed-plot",
            "timed-undo",
            "timed-usual",
            "timed-…-…",
            "timer.js",
            "timings",
            "to",
            "until",
        ],
    ),
    (
        "parts of the shifts, where something stands in their drawing, and ids of ranges",
        &[
            "[data-chain]",
            "a",
            "height",
            "left",
            "r…",
            "shifts",
            "crossing",
            "frames",
            "given_up",
            "layouts-missed",
            "layouts",
            "toothless",
            "unended",
            "useless",
            "layouts-applied",
            "layouts-backward",
            "layouts-begin",
            "layouts-brakes",
            "layouts-clutches",
            "layouts-elements",
            "layouts-has-backward",
            "layouts-pinion-teeth-…",
            "layouts-ranges",
            "layouts-rest",
            "layouts-stop",
            "layouts-swaps",
            "layouts-teeth-…",
            "find-back",
            "find-all",
            "find-begin",
            "find-wider",
            "find-best-…",
            "find-count-…",
            "find-keep",
            "find-keep-…",
            "find-pinion-teeth-…",
            "find-ratios",
            "find-rest",
            "find-ring-…",
            "find-rule-…",
            "find-stop",
            "find-teeth-…",
            "finds",
            "th",
            "tr",
            "beaten",
            "outside",
            "tried",
            "shifts-between",
            "shifts-chains",
            "shifts-chosen",
            "top",
            "width",
        ],
    ),
    (
        "what a worksheet leaves blank",
        &["ratios", "speeds", "states"],
    ),
    (
        "languages, each by its own name, and what the browser keeps of them",
        &[
            "Deutsch",
            "English",
            "[lang]",
            "en",
            "levertrain-language",
            "levertrain-unfolded",
        ],
    ),
    ("files", &["scenarios/words/….json"]),
    (
        "names of units",
        &[
            "J", "N·m", "Nm", "W", "kg·m²", "hp", "kW", "lbf·ft", "rad/s", "rev/min", "rpm",
        ],
    ),
    ("events", &["answer", "message"]),
    (
        "keys of the keyboard, as the list of them names them",
        &[
            "Ctrl Y",
            "Ctrl Z",
            "Enter",
            "Esc",
            "F8",
            "PageDown",
            "PageUp",
            "Space",
            "ratio words numbers all",
            "→ Space PageDown ← PageUp",
        ],
    ),
    (
        "where something scrolls to, what becomes of a selection, and a panel",
        &["keys", "nearest", "preserve"],
    ),
    (
        "keys of what can be taken hold of in the drawing, and of the buttons for it",
        &[
            "add …",
            "any place",
            "apply",
            "close",
            "clutches",
            "connect",
            "cut off",
            "end …",
            "fast",
            "fit",
            "gap",
            "gap …",
            "hold",
            "join",
            "less …",
            "let go",
            "make …",
            "member",
            "member … …",
            "more …",
            "move …",
            "move ←",
            "move →",
            "parts",
            "ratio",
            "remove",
            "set",
            "teeth …",
            "turn",
            "way",
        ],
    ),
    (
        "names of nodes, and values of their attributes",
        &[
            ".grip",
            "file-state",
            "[data-index]",
            ".stage",
            ".stage-frame",
            "0px",
            "line",
            "off",
            "polite",
            "strip-close",
            "svg",
            "…px …px …px …px",
        ],
    ),
    (
        "values of options, and names of rows",
        &["coast", "drive", "input", "loss", "output", "stall"],
    ),
    (
        "orders of combinations, and the lists above them",
        &[
            "ascending",
            "changes",
            "counting",
            "descending",
            "order",
            "ratio",
            "state",
            "wanted-…",
        ],
    ),
    (
        "columns and looks",
        &[
            "worksheet-ranges",
            "worksheet-speeds",
            "bare",
            "figure",
            "figure quiet",
            "fill",
            "ink",
            "matrix",
            "on",
            "plain",
            "side",
            "thin",
        ],
    ),
    (
        "styles",
        &[
            "16px",
            "@font-face { font-family: \"…\"; font-weight: …; src: url(\"…\") format(\"woff2\"); }",
            "calc($1 * var(…))",
            "italic",
            "url(\"…\")",
            "…px",
        ],
    ),
    (
        "typefaces and their files",
        &[
            "Barlow Semi Condensed",
            "STIX Two Text",
            "barlow-semi-condensed-latin-400-normal",
            "barlow-semi-condensed-latin-600-normal",
            "stix-two-text-latin-wght-italic",
            "stix-two-text-latin-wght-normal",
        ],
    ),
    (
        "files, and parts of addresses",
        &[
            "css/element.css",
            "css/in_class.css",
            "css/handout.css",
            "learn/handout_paper.js",
            "learn/in_class.js",
            "../element.js",
            "css/panels.css",
            "css/worksheet.css",
            "again=…",
            "file/",
            "empty/",
            "instant",
            "make range",
            "around converter",
            "around engine",
            "none",
            "scenarios/index.json",
        ],
    ),
    (
        "what the browser keeps things by",
        &[
            "levertrain draft …",
            "levertrain files …",
            "levertrain pin",
            "levertrain-drag",
            "levertrain-theme",
        ],
    ),
    (
        "markup",
        &[
            "&amp;",
            "&lt;",
            "aria-label",
            "bdi, option, textarea, .unseen, [contenteditable]",
            "http://www.w3.org/1998/Math/MathML",
            "http://www.w3.org/2000/svg",
            "math",
            "…<mo>=</mo>",
            "…<mo>=</mo>…",
            "…Mathml",
        ],
    ),
    ("ways to move", &["held"]),
    (
        "edits of a train",
        &[
            "add-element",
            "add-range",
            "add-set",
            "amount",
            "cut",
            "cut-sets",
            "friction",
            "count",
            "ends",
            "label-element",
            "label-part",
            "label-range",
            "label-set",
            "label-shaft",
            "locks",
            "mesh",
            "move-range",
            "move-set",
            "name",
            "place",
            "point",
            "remove-element",
            "remove-range",
            "remove-set",
            "repeat-set",
            "surround",
            "teeth",
        ],
    ),
    (
        "words of a scenario file",
        &[
            "clamp_force",
            "coefficient",
            "inner_radius",
            "outer_radius",
            "surfaces",
            "constant",
            "converter",
            "full",
            "linear",
            "motoring",
            "quadratic",
            "table",
            "weight",
            "double-pinion",
            "external",
            "gear-pair",
            "housing",
            "internal",
            "one-way",
            "planetary",
            "ravigneaux",
            "stepped",
            "stepped-suns",
        ],
    ),
    (
        "what fields and buttons of the form are known by",
        &[
            "add element",
            "add range",
            "add set",
            "add … …",
            "label …",
            "load …",
            "no converter",
            "no engine",
            "remove … …",
            "back",
            "begin",
            "count …",
            "element …",
            "end … …",
            "delete",
            "find …",
            "fit …",
            "friction …",
            "no friction …",
            "repeat",
            "restore",
            "mesh …",
            "new element",
            "new first",
            "new second",
            "new set",
            "range …",
            "redo",
            "remove range …",
            "remove …",
            "repeat …",
            "save",
            "set …",
            "sets",
            "shaft …",
            "shaft … …",
            "take …",
            "teeth … …",
            "undo",
            "way …",
            "… range …",
        ],
    ),
    (
        "kinds of fields, files and panels, and codings",
        &[
            "any",
            "decimal",
            "chart",
            "deflate-raw",
            "numeric",
            "train",
            "utf-8",
            "….json",
        ],
    ),
    ("formulas as plain text", &["i = …"]),
    (
        "characters, and what finds them",
        &[
            "[…](?:[^p{Script=Latin}]*[…])?",
            "u",
            "u0590-u08ffufb1d-ufdffufe70-ufefcu{10800}-u{10fff}u{1e800}-u{1efff}",
            "u{…}",
        ],
    ),
];

fn catalogue() -> Result<String> {
    Ok(fs::read_to_string(root().join("core/words/en.ftl"))?)
}

fn keys(catalogue: &str) -> BTreeSet<&str> {
    let lines = catalogue
        .lines()
        .filter(|line| line.starts_with(|first: char| first.is_ascii_lowercase()));
    lines
        .filter_map(|line| Some(line.split_once(" = ")?.0))
        .collect()
}

/// What selections choose by.
fn choices(catalogue: &str) -> BTreeSet<&str> {
    let parts = catalogue.split('[').skip(1);
    parts
        .filter_map(|part| Some(part.split_once(']')?.0))
        .collect()
}

fn literals() -> Result<Vec<(String, ScriptLiteral)>> {
    let mut found = Vec::new();
    for file in scripts(&root().join("www"))? {
        if LEFT_OUT.iter().any(|(name, _)| file.ends_with(name)) {
            continue;
        }
        let own = script_literals(&fs::read_to_string(&file)?).into_iter();
        found.extend(own.map(|literal| (file.display().to_string(), literal)));
    }
    ensure!(found.len() > 1000, "{}", found.len());
    Ok(found)
}

/// The attribute or the property that a literal is the value of, or a part of it.
fn attribute(literal: &ScriptLiteral) -> Option<&str> {
    if literal.within.ends_with("setAttribute(") && literal.place == 1 {
        return Some(&literal.first);
    }
    let (name, _) = literal.before.split_once(':')?;
    let named = literal.within.ends_with('{');
    named.then(|| name.trim().trim_matches('"'))
}

/// The function that a literal is given to.
fn function(literal: &ScriptLiteral) -> Option<&str> {
    let name = literal.within.strip_suffix('(')?;
    name.rsplit(|letter: char| !letter.is_alphanumeric()).next()
}

/// Whether it is the message that is asked for.
fn says(literal: &ScriptLiteral) -> bool {
    matches!(function(literal), Some("say" | "sayParts")) && literal.place == 0
}

/// Whether it stands where a person reads or hears it.
fn is_read(literal: &ScriptLiteral) -> bool {
    let is_child = function(literal) == Some("h") && literal.place > 1;
    is_child
        || attribute(literal).is_some_and(|name| READ_ATTRIBUTES.contains(&name))
        || function(literal).is_some_and(|name| READ_ARGUMENTS.contains(&name))
        || literal.before.ends_with("textContent =")
        || literal.before.contains("textContent = ")
}

/// Whether it stands where only names of things stand, or is compared with one.
fn is_name(literal: &ScriptLiteral) -> bool {
    let ScriptLiteral {
        text,
        within,
        around,
        place,
        before,
        after,
        ..
    } = literal;
    let is_key = after.trim_start().starts_with(':') && before.is_empty();
    let is_compared = ["===", "!==", "case", "from", "import"]
        .iter()
        .any(|sign| before.ends_with(sign))
        || after.trim_start().starts_with("in ");
    let is_value = attribute(literal)
        .is_some_and(|name| name.starts_with("data-") || ATTRIBUTES.contains(&name));
    let is_named = *place == 0 && function(literal).is_some_and(|name| NAMING.contains(&name));
    // A line of an icon: single letters and numbers.
    let is_path = text.starts_with('M')
        && text
            .split(|c: char| !c.is_alphabetic())
            .all(|letters| letters.len() < 3);
    is_key
        || is_path
        || is_compared
        || is_value
        || is_named
        || text.starts_with(['<', '#'])
        || text.starts_with("--")
        || function(literal) == Some("emit")
        || LISTS.iter().any(|list| within.ends_with(list))
        || within.trim() == "[" && around.ends_with("follow(")
}

#[test]
fn no_literal_of_the_page_is_a_word() -> Result<()> {
    let catalogue = catalogue()?;
    let (keys, choices) = (keys(&catalogue), choices(&catalogue));
    let listed = || NO_WORDS.iter().flat_map(|(_, words)| words.iter().copied());
    let (mut met, mut wrong) = (BTreeSet::new(), BTreeSet::new());
    for (file, literal) in literals()? {
        let text = literal.text.trim();
        // Some keys are words.
        let is_key = keys.contains(text) && (text.contains('-') || says(&literal));
        let is_message = is_key || !text.contains(char::is_alphabetic);
        if SIGNS.contains(&text) {
            met.insert(text.to_owned());
            continue;
        }
        if !is_read(&literal) {
            if listed().any(|word| word == text) {
                met.insert(text.to_owned());
                continue;
            }
            if choices.contains(text) || is_name(&literal) {
                continue;
            }
        }
        if !is_message {
            wrong.insert(format!("{file}: {text:?}"));
        }
    }
    let wrong: Vec<String> = wrong.into_iter().collect();
    ensure!(wrong.is_empty(), "no messages:\n{}", wrong.join("\n"));
    for word in listed().chain(SIGNS.iter().copied()) {
        ensure!(met.contains(word), "{word:?} stands nowhere any more");
    }
    Ok(())
}

/// Catches a key that is misspelt.
#[test]
fn every_message_that_the_page_asks_for_is_there() -> Result<()> {
    let catalogue = catalogue()?;
    let keys = keys(&catalogue);
    let mut asked = 0;
    for (file, literal) in literals()? {
        if literal.text.starts_with("page-") || says(&literal) {
            ensure!(
                keys.contains(&*literal.text),
                "{file}: no message {:?}",
                literal.text
            );
            asked += 1;
        }
    }
    ensure!(asked > 200, "{asked}");
    Ok(())
}
