//! What the end view draws, checked: teeth that mesh, and pictures that can be read.

mod meshing;
mod picture;

use crate::document::session::Session;

/// Every kind of coupling, with small and large gears; all can be assembled.
const COUPLINGS: [&str; 12] = [
    r#"{"kind": "planetary", "id": "p", "label": "Set", "carrier": "c",
        "sun": {"shaft": "s", "teeth": 20}, "ring": {"shaft": "r", "teeth": 80},
        "pinion": {"teeth": 30, "count": 4}}"#,
    r#"{"kind": "planetary", "id": "p", "label": "Set", "carrier": "c",
        "sun": {"shaft": "s", "teeth": 37}, "ring": {"shaft": "r", "teeth": 83},
        "pinion": {"teeth": 23, "count": 3}}"#,
    r#"{"kind": "planetary", "id": "p", "label": "Set", "carrier": "c",
        "sun": {"shaft": "s", "teeth": 60}, "ring": {"shaft": "r", "teeth": 120},
        "pinion": {"teeth": 30, "count": 5}}"#,
    r#"{"kind": "double-pinion", "id": "p", "label": "Set", "carrier": "c",
        "sun": {"shaft": "s", "teeth": 36}, "ring": {"shaft": "r", "teeth": 84},
        "inner": {"teeth": 20}, "outer": {"teeth": 21}, "count": 3}"#,
    r#"{"kind": "gear-pair", "id": "p", "label": "Pair", "mesh": "external",
        "first": {"shaft": "s", "teeth": 31}, "second": {"shaft": "r", "teeth": 68}}"#,
    r#"{"kind": "gear-pair", "id": "p", "label": "Pair", "mesh": "internal",
        "first": {"shaft": "s", "teeth": 23}, "second": {"shaft": "r", "teeth": 61}}"#,
    r#"{"kind": "gear-pair", "id": "p", "label": "Pair", "mesh": "internal",
        "first": {"shaft": "s", "teeth": 18}, "second": {"shaft": "r", "teeth": 45}}"#,
    r#"{"kind": "stepped", "id": "p", "label": "Set", "carrier": "c",
        "sun": {"shaft": "s", "teeth": 20}, "ring": {"shaft": "r", "teeth": 62},
        "sun_pinion": {"teeth": 28}, "ring_pinion": {"teeth": 14}, "count": 4}"#,
    r#"{"kind": "stepped", "id": "p", "label": "Set", "carrier": "c",
        "sun": {"shaft": "s", "teeth": 23}, "ring": {"shaft": "r", "teeth": 59},
        "sun_pinion": {"teeth": 15}, "ring_pinion": {"teeth": 21}, "count": 3}"#,
    r#"{"kind": "stepped-suns", "id": "p", "label": "Set", "carrier": "c",
        "first_sun": {"shaft": "s", "teeth": 33}, "second_sun": {"shaft": "r", "teeth": 24},
        "first_pinion": {"teeth": 21}, "second_pinion": {"teeth": 30}, "count": 3}"#,
    r#"{"kind": "stepped-suns", "id": "p", "label": "Set", "carrier": "c",
        "first_sun": {"shaft": "s", "teeth": 24}, "second_sun": {"shaft": "r", "teeth": 33},
        "first_pinion": {"teeth": 30}, "second_pinion": {"teeth": 21}, "count": 3}"#,
    r#"{"kind": "ravigneaux", "id": "p", "label": "Set", "carrier": "c",
        "small_sun": {"shaft": "s", "teeth": 30}, "large_sun": {"shaft": "b", "teeth": 36},
        "ring": {"shaft": "r", "teeth": 72}, "short": {"teeth": 19}, "long": {"teeth": 18},
        "count": 3}"#,
];

/// A train of one coupling, brakes on its shafts.
fn session(coupling: &str) -> Session {
    let text = format!(
        r#"{{"format": 1, "name": "One", "input": "s", "output": "r",
            "shafts": [{{"id": "s", "label": "Input shaft"}}, {{"id": "c", "label": "Carrier"}},
                       {{"id": "r", "label": "Delivers to everything that comes behind"}},
                       {{"id": "b", "label": "Second sun"}}],
            "couplings": [{coupling}],
            "elements": [{{"kind": "brake", "id": "C", "label": "Brake C", "shaft": "c"}},
                         {{"kind": "brake", "id": "R", "label": "Brake R", "shaft": "r"}}],
            "ranges": []}}"#
    );
    opened(&text)
}

fn opened(text: &str) -> Session {
    match Session::open(text) {
        Ok(session) => session,
        Err(problems) => panic!("{problems:?}"),
    }
}
