//! What to begin with: a set of each kind with usual tooth counts, a train without any set, and
//! trains of a few sets.

use super::{elements, members, ranges, sets};
use crate::base::problem::Problem;
use crate::base::said::word;
use crate::json::{Read, strict};
use crate::model::coupling::{Coupling, Teeth};
use crate::model::scenario::{FORMAT, HOUSING, Scenario, Shaft};

/// A set of each kind, in the order of their list, as files hold them; their tooth counts, which are
/// invented, keep all rules.
const SETS: &str = include_str!("sets.json");

/// Teeth of sun, pinions and ring of the sets of a starter, all with four pinions.
const SERIES: [[u32; 3]; 3] = [[36, 24, 84], [48, 24, 96], [60, 18, 96]];

/// A set of a kind, its shafts and its name still empty.
pub(crate) fn set(kind: &str) -> Result<Coupling, Problem> {
    let mut problems = Vec::new();
    let at = Coupling::TAGS.iter().position(|&tag| tag == kind);
    let read = at.and_then(|at| {
        let sets: Vec<Coupling> = Read::read(strict(SETS).ok()?, "", &mut problems)?;
        sets.into_iter().nth(at)
    });
    read.ok_or_else(|| {
        let found = format!("\"{kind}\"");
        let values = [("found", &*found), ("what", "coupling")];
        let names = Coupling::TAGS.join(", ");
        Problem::of(
            "couplings",
            ("problem-unknown-kind", &values),
            ("fix-use-one-of", &[("names", &names)]),
        )
    })
}

/// A train of an input and an output shaft with nothing between them.
pub fn blank() -> Scenario {
    let shaft = |id: &str, label: &str| Shaft {
        id: id.to_owned(),
        label: word(label).to_owned(),
    };
    Scenario {
        format: FORMAT,
        name: word("edit-blank").to_owned(),
        about: String::new(),
        input: "in".to_owned(),
        output: "out".to_owned(),
        housing_label: None,
        shafts: vec![shaft("in", "edit-input"), shaft("out", "edit-output")],
        couplings: Vec::new(),
        elements: Vec::new(),
        ranges: Vec::new(),
        engine: None,
        converter: None,
        load: None,
        dynamics: None,
        vehicle: None,
        sources: None,
    }
}

/// A train of one to three planetary sets one behind the other: each sun is driven by the carrier
/// before it, a brake holds each ring, and a clutch turns each set as one.
///
/// # Errors
/// None, unless an edit that it is made by is at fault.
pub fn starter(sets: usize) -> Result<Scenario, Problem> {
    let mut train = blank();
    let series = &SERIES[..sets.clamp(1, SERIES.len())];
    for (at, counts) in series.iter().enumerate() {
        let n = at + 1;
        sets::add(&mut train, "planetary", at)?;
        for (gear, &teeth) in counts.iter().enumerate() {
            if let Some(teeth) = Teeth::new(teeth) {
                sets::cut(&mut train, &format!("p{n}"), gear, teeth)?;
            }
        }
        let driver = match at {
            0 => "in".to_owned(),
            _ => format!("c{at}"),
        };
        members::connect(&mut train, &driver, &format!("s{n}"))?;
        let ring = [format!("r{n}"), HOUSING.to_owned()];
        elements::add(&mut train, "brake", &ring)?;
        elements::add(&mut train, "clutch", &[driver, format!("c{n}")])?;
    }
    members::connect(&mut train, "out", &format!("c{}", series.len()))?;
    // A brake and a clutch of each set in turn; range by range one set more turns as one.
    let ids: Vec<String> = train.elements.iter().map(|x| x.id().to_owned()).collect();
    for locked in 0..=series.len() {
        let of_set = |(at, pair): (usize, &[String])| {
            let is_locked = at + locked >= series.len();
            pair.get(usize::from(is_locked)).cloned()
        };
        let applied: Vec<String> = ids.chunks(2).enumerate().filter_map(of_set).collect();
        ranges::add(&mut train, "", &applied);
    }
    Ok(train)
}
