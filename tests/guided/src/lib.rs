//! What the fuzz targets share: scenarios to begin with, and edits made of bytes.

use levertrain_core::Scenario;
use levertrain_core::edit::{Edit, starter};
use levertrain_core::scenario::HOUSING;

/// The scenarios of the project, and a train of no set and of one.
pub fn beginnings() -> Vec<Scenario> {
    let texts = [
        include_str!("../../../scenarios/01-one-set.json"),
        include_str!("../../../scenarios/05-eight-speed-four-sets.json"),
        include_str!("../../../scenarios/06-set-and-final-pairs.json"),
        include_str!("../../../scenarios/09-six-speed-front-set.json"),
    ];
    let files = texts
        .into_iter()
        .filter_map(|text| Scenario::parse(text).ok());
    files
        .chain(starter(1).ok())
        .chain([levertrain_core::edit::blank()])
        .collect()
}

/// Bytes, one after the other; zero where there are no more.
pub struct Bytes<'a>(pub &'a [u8]);

impl Bytes<'_> {
    pub fn next(&mut self) -> usize {
        match self.0.split_first() {
            Some((first, rest)) => {
                self.0 = rest;
                usize::from(*first)
            }
            None => 0,
        }
    }

    fn of<'t>(&mut self, items: &'t [String]) -> &'t str {
        let at = self.next();
        items
            .get(at % items.len().max(1))
            .map_or("nobody", String::as_str)
    }
}

/// The edit that the next few bytes say, of a scenario; most make sense.
pub fn edit(bytes: &mut Bytes<'_>, scenario: &Scenario) -> Option<Edit> {
    const KINDS: [&str; 6] = [
        "planetary",
        "double-pinion",
        "stepped",
        "stepped-suns",
        "ravigneaux",
        "gear-pair",
    ];
    let ids = |ids: Vec<&str>| -> Vec<String> { ids.into_iter().map(str::to_owned).collect() };
    let mut shafts = ids(scenario.shafts.iter().map(|shaft| &*shaft.id).collect());
    shafts.push(HOUSING.to_owned());
    let sets = ids(scenario
        .couplings
        .iter()
        .map(|set| set.facts().id())
        .collect());
    let elements = ids(scenario
        .elements
        .iter()
        .map(|element| element.id())
        .collect());
    let ranges = ids(scenario.ranges.iter().map(|range| &*range.id).collect());
    let kind = bytes.next() % 23;
    let (set, at) = (bytes.of(&sets).to_owned(), bytes.next());
    let (one, other) = (bytes.of(&shafts), bytes.of(&shafts));
    let element = bytes.of(&elements);
    let range = bytes.of(&ranges);
    let rows = ["full", "motoring", "table", "load"][at / 10 % 4];
    let turned = ["null", "true", "false"][at % 3];
    let text = match kind {
        0 | 1 => format!(
            r#"{{"edit": "add-set", "kind": "{}", "at": {}}}"#,
            KINDS[at % 6],
            at / 6 % 14
        ),
        2 => format!(r#"{{"edit": "remove-set", "set": "{set}"}}"#),
        3 => format!(
            r#"{{"edit": "move-set", "set": "{set}", "at": {}}}"#,
            at % 13
        ),
        4 => format!(r#"{{"edit": "repeat-set", "set": "{set}"}}"#),
        5 => format!(
            r#"{{"edit": "teeth", "set": "{set}", "gear": {}, "teeth": {}}}"#,
            at % 5,
            6 + at
        ),
        6 => format!(r#"{{"edit": "turn", "set": "{set}", "turned": {turned}}}"#),
        7 => format!(
            r#"{{"edit": "place", "set": "{set}", "member": {}, "shaft": "{one}"}}"#,
            at % 4
        ),
        8 => format!(
            r#"{{"edit": "place", "set": "{set}", "member": {}, "shaft": ""}}"#,
            at % 4
        ),
        9 => format!(r#"{{"edit": "connect", "first": "{one}", "second": "{other}"}}"#),
        10 => {
            format!(r#"{{"edit": "add-element", "kind": "brake", "ends": ["{one}", "housing"]}}"#)
        }
        11 => {
            format!(r#"{{"edit": "add-element", "kind": "clutch", "ends": ["{one}", "{other}"]}}"#)
        }
        12 => {
            format!(r#"{{"edit": "add-element", "kind": "one-way", "ends": ["{one}", "{other}"]}}"#)
        }
        13 => format!(r#"{{"edit": "remove-element", "element": "{element}"}}"#),
        14 => format!(
            r#"{{"edit": "gap", "element": "{element}", "gap": {}}}"#,
            at % 14
        ),
        15 => format!(r#"{{"edit": "input", "shaft": "{one}"}}"#),
        16 => format!(r#"{{"edit": "output", "shaft": "{one}"}}"#),
        17 => format!(r#"{{"edit": "add-range", "label": "", "applied": ["{element}"]}}"#),
        18 => {
            format!(r#"{{"edit": "ends", "element": "{element}", "ends": ["{one}", "{other}"]}}"#)
        }
        19 => format!(
            r#"{{"edit": "surround", "part": "{}", "there": {}}}"#,
            ["engine", "converter", "load"][at % 3],
            at / 3 % 4 > 0
        ),
        20 => format!(
            r#"{{"edit": "amount", "rows": "{rows}", "at": {}, "column": {}, "amount": {}}}"#,
            at % 5,
            at / 5 % 4,
            bytes.next() * bytes.next()
        ),
        21 => format!(
            r#"{{"edit": "point", "rows": "{rows}", "at": {}, "there": {}}}"#,
            at % 5,
            at / 5 % 2 > 0
        ),
        _ => format!(r#"{{"edit": "remove-range", "range": "{range}"}}"#),
    };
    Edit::parse(&text).ok()
}
