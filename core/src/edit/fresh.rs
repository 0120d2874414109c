//! Ids and labels for what is new.

use crate::base::said::said;
use crate::model::coupling::Role;
use crate::model::scenario::{Scenario, Shaft, limits};

/// Letters of brakes, clutches and one-way clutches, in the order in which they are given.
const BRAKES: &[char] = &['V', 'W', 'X', 'Y', 'Z', 'U', 'T'];
const CLUTCHES: &[char] = &['H', 'J', 'K', 'L', 'M', 'N', 'P', 'R'];
const ONE_WAYS: &[char] = &['Q', 'S', 'G', 'F'];

/// The first number from 1 on whose text is not taken.
pub(super) fn number(text: impl Fn(usize) -> String, taken: impl Fn(&str) -> bool) -> usize {
    (1..).find(|&n| !taken(&text(n))).unwrap_or(1)
}

/// The number of the next set: neither its id nor its label is taken.
pub(super) fn set(scenario: &Scenario) -> (usize, String, String) {
    let id = |n: usize| format!("p{n}");
    let label = |n: usize| said("edit-set", &[("number", &n.to_string())]);
    let taken = |text: &str| {
        let mut sets = scenario.couplings.iter().map(|set| set.facts());
        sets.any(|set| set.id() == text || set.label() == text)
    };
    let n = (1..)
        .find(|&n| !taken(&id(n)) && !taken(&label(n)))
        .unwrap_or(1);
    (n, id(n), label(n))
}

/// Adds a shaft for a member of the set with this number, and gives its id.
pub(crate) fn shaft(scenario: &mut Scenario, role: Role, set: usize) -> String {
    let taken = |text: &str| {
        let mut shafts = scenario.shafts.iter();
        shafts.any(|shaft| shaft.id == text || shaft.label == text)
    };
    let base = format!("{}{set}", role.letter().to_lowercase());
    let id = suffixed(&base, "", &taken);
    let mut role = role.word().to_owned();
    if let Some(first) = role.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    let values = [("role", &*role), ("number", &set.to_string())];
    let label = suffixed(&said("edit-member", &values), " ", &taken);
    scenario.shafts.push(Shaft {
        id: id.clone(),
        label,
    });
    id
}

/// The text as it is, or with the first letter after it that makes it another.
fn suffixed(base: &str, between: &str, taken: &impl Fn(&str) -> bool) -> String {
    let letters = ('b'..='z').map(|letter| format!("{base}{between}{letter}"));
    let mut texts = std::iter::once(base.to_owned()).chain(letters);
    texts
        .find(|text| !taken(text))
        .unwrap_or_else(|| base.to_owned())
}

/// Id and label of a new element of a kind, as the file names it.
pub(crate) fn element(scenario: &Scenario, kind: &str) -> (String, String) {
    let (letters, message) = match kind {
        "brake" => (BRAKES, "edit-brake"),
        "clutch" => (CLUTCHES, "edit-clutch"),
        _ => (ONE_WAYS, "edit-one-way"),
    };
    let label = |id: &str| said(message, &[("id", id)]);
    let taken = |id: &str| {
        let label = label(id);
        let mut elements = scenario.elements.iter();
        elements.any(|element| element.id() == id || element.label() == label)
    };
    let plain = letters.iter().copied().map(String::from);
    let numbered =
        (2..=limits::ELEMENTS + 1).flat_map(|n| letters.iter().map(move |c| format!("{c}{n}")));
    let id = plain.chain(numbered).find(|id| !taken(id));
    let id = id.unwrap_or_default();
    let label = label(&id);
    (id, label)
}

/// The id of a new range.
pub(super) fn range(scenario: &Scenario) -> String {
    let id = |n: usize| format!("g{n}");
    let taken = |text: &str| scenario.ranges.iter().any(|range| range.id == text);
    id(number(id, taken))
}

/// Removes those of these shafts that carry nothing and are neither input nor output.
pub(super) fn tidy(scenario: &mut Scenario, shafts: &[String]) {
    for shaft in shafts {
        if !carries(scenario, shaft) && *shaft != scenario.input && *shaft != scenario.output {
            scenario.shafts.retain(|known| known.id != *shaft);
        }
    }
}

fn carries(scenario: &Scenario, shaft: &str) -> bool {
    let members = scenario
        .couplings
        .iter()
        .flat_map(|set| set.facts().members());
    let mut on = members.map(|member| member.shaft);
    on.any(|id| id == shaft) || scenario.elements.iter().any(|x| x.ends().contains(&shaft))
}
