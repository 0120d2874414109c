//! Checking a scenario part by part, collecting every problem instead of stopping at the first.

mod surroundings;

use crate::base::catalogue::Values;
use crate::base::characters::{is_blank, steers};
use crate::base::element_set::ElementSet;
use crate::base::problem::{Problem, shortened};
use crate::base::said::{counted, said};
use crate::model::coupling::Coupling;
use crate::model::scenario::{Brake, Clutch, Element, HOUSING, OneWay, Scenario, limits};
use crate::train::Body;

/// Most characters quoted of a text that may be very long.
const QUOTED_CHARS: usize = 48;

/// The problem of an id that no `shaft`, or no `element`, has.
pub(crate) fn unknown<'a>(
    what: &str,
    place: &str,
    id: &str,
    known: impl Iterator<Item = &'a str>,
) -> Problem {
    let known: Vec<&str> = known.collect();
    let fix = match known.is_empty() {
        true => "fix-has-none",
        false => "fix-use-one-of",
    };
    let id = shortened(id, QUOTED_CHARS);
    Problem::of(
        place,
        ("problem-unknown-id", &[("what", what), ("id", &id)]),
        (fix, &[("what", what), ("names", &known.join(", "))]),
    )
}

/// Checks a scenario part by part and collects every problem.
pub(crate) struct Checker<'a> {
    scenario: &'a Scenario,
    /// The problems found so far.
    pub(crate) problems: Vec<Problem>,
}

impl<'a> Checker<'a> {
    pub(crate) fn new(scenario: &'a Scenario) -> Self {
        Self {
            scenario,
            problems: Vec::new(),
        }
    }

    /// Notes a problem by its message, and that of a fix that needs no variables.
    pub(crate) fn note(&mut self, place: &str, problem: (&str, Values<'_>), fix: &str) {
        self.problems.push(Problem::of(place, problem, (fix, &[])));
    }

    /// Notes how many there are, by a message, where that is not from `least` to `most`.
    fn count(&mut self, place: &str, message: &str, count: usize, [least, most]: [usize; 2]) {
        if !(least..=most).contains(&count) {
            let (least, most) = (least.to_string(), most.to_string());
            self.problems.push(Problem::new(
                place,
                counted(message, count),
                said("fix-have", &[("least", &least), ("most", &most)]),
            ));
        }
    }

    /// Lengths, characters and uniqueness of every id and label.
    pub(crate) fn texts(&mut self) {
        let scenario = self.scenario;
        self.text("name", &scenario.name, 1, limits::NAME_CHARS);
        self.text("about", &scenario.about, 0, limits::ABOUT_CHARS);
        if let Some(label) = &scenario.housing_label {
            self.text("housing_label", label, 1, limits::LABEL_CHARS);
        }
        let shafts = scenario
            .shafts
            .iter()
            .map(|x| (x.id.as_str(), x.label.as_str()));
        self.list("shafts", shafts, 2, limits::SHAFTS);
        let couplings = scenario.couplings.iter().map(Coupling::facts);
        let couplings = couplings.map(|x| (x.id(), x.label()));
        self.list("couplings", couplings, 0, limits::COUPLINGS);
        let elements = scenario.elements.iter().map(|x| (x.id(), x.label()));
        self.list("elements", elements, 0, limits::ELEMENTS);
        let ranges = scenario
            .ranges
            .iter()
            .map(|x| (x.id.as_str(), x.label.as_str()));
        self.list("ranges", ranges, 0, limits::RANGES);
        if self.shaft_index(HOUSING).is_some() {
            let problem = ("problem-housing-id", &[("id", HOUSING)][..]);
            self.note("shafts", problem, "fix-another-id");
        }
    }

    /// Whether the room that an element is drawn in is one.
    fn gap(&mut self, element: usize, gap: Option<u32>) {
        let sets = self.scenario.couplings.len();
        let Some(gap) = gap.filter(|&gap| gap as usize > sets) else {
            return;
        };
        let place = format!("elements[{element}].gap");
        let (found, most) = (gap.to_string(), sets.to_string());
        let problem = ("problem-no-gap", &[("found", &*found)][..]);
        let fix = ("fix-number", &[("most", &*most)][..]);
        self.problems.push(Problem::of(&place, problem, fix));
    }

    fn list<'b>(
        &mut self,
        name: &str,
        items: impl Iterator<Item = (&'b str, &'b str)>,
        least: usize,
        most: usize,
    ) {
        let mut seen = Vec::new();
        for (index, (id, label)) in items.enumerate() {
            let place = format!("{name}[{index}]");
            self.id(&format!("{place}.id"), id);
            self.text(&format!("{place}.label"), label, 1, limits::LABEL_CHARS);
            if let Some(first) = seen.iter().position(|&known| known == id) {
                let first = format!("{name}[{first}]");
                let problem = ("problem-taken-id", &[("id", id), ("first", &first)][..]);
                self.note(&format!("{place}.id"), problem, "fix-different-id");
            }
            seen.push(id);
        }
        self.count(name, "problem-entries", seen.len(), [least, most]);
    }

    fn id(&mut self, place: &str, id: &str) {
        let plain = |c: char| c.is_ascii_alphanumeric() || c == '_' || c == '-';
        if id.is_empty() || id.len() > limits::ID_CHARS || !id.chars().all(plain) {
            self.problems.push(Problem::of(
                place,
                ("problem-id", &[("id", &shortened(id, QUOTED_CHARS))]),
                ("fix-id", &[("most", &limits::ID_CHARS.to_string())]),
            ));
        }
    }

    fn text(&mut self, place: &str, text: &str, least: usize, most: usize) {
        let count = text.chars().count();
        if !(least..=most).contains(&count) || text.chars().any(char::is_control) {
            let text = shortened(text, QUOTED_CHARS);
            let (count, least, most) = (count.to_string(), least.to_string(), most.to_string());
            self.problems.push(Problem::of(
                place,
                (
                    "problem-characters",
                    &[("text", &text), ("characters", &count)],
                ),
                ("fix-characters", &[("least", &least), ("most", &most)]),
            ));
        } else if let Some(hidden) = text.chars().find(|&c| steers(c)) {
            let code = format!("{:04X}", hidden as u32);
            self.note(
                place,
                ("problem-steers", &[("code", &code)]),
                "fix-leave-out",
            );
        } else if least > 0 && text.chars().all(is_blank) {
            self.note(place, ("problem-unseen", &[]), "fix-letter");
        }
    }

    /// Index of a shaft that must turn.
    pub(crate) fn shaft(&mut self, place: &str, id: &str) -> Option<usize> {
        if id == HOUSING {
            self.note(place, ("problem-housing", &[]), "fix-shaft");
            return None;
        }
        let index = self.shaft_index(id);
        if index.is_none() {
            let known = self.scenario.shafts.iter().map(|shaft| shaft.id.as_str());
            self.problems.push(unknown("shaft", place, id, known));
        }
        index
    }

    fn shaft_index(&self, id: &str) -> Option<usize> {
        self.scenario.shafts.iter().position(|shaft| shaft.id == id)
    }

    fn body(&mut self, place: &str, id: &str) -> Option<Body> {
        if id == HOUSING {
            return Some(Body::Housing);
        }
        self.shaft(place, id).map(Body::Shaft)
    }

    pub(crate) fn members(&mut self) -> Vec<Vec<Body>> {
        let mut couplings = Vec::new();
        for (index, coupling) in self.scenario.couplings.iter().enumerate() {
            let facts = coupling.facts();
            let mut bodies: Vec<Body> = Vec::new();
            for member in facts.members() {
                let place = said(
                    "place-member",
                    &[
                        ("coupling", &format!("couplings[{index}]")),
                        ("member", member.role.word()),
                    ],
                );
                let Some(body) = self.body(&place, member.shaft) else {
                    continue;
                };
                if bodies.contains(&body) {
                    let values = [("id", member.shaft), ("coupling", facts.id())];
                    self.note(
                        &place,
                        ("problem-member-twice", &values),
                        "fix-member-twice",
                    );
                }
                bodies.push(body);
            }
            couplings.push(bodies);
        }
        couplings
    }

    pub(crate) fn ends(&mut self) -> Vec<[Body; 2]> {
        let mut elements = Vec::new();
        for (index, element) in self.scenario.elements.iter().enumerate() {
            let ends = match element {
                Element::Brake(Brake { shaft, .. }) => {
                    let shaft = self.shaft(&format!("elements[{index}].shaft"), shaft);
                    shaft.map(|shaft| [Body::Shaft(shaft), Body::Housing])
                }
                Element::Clutch(Clutch {
                    between: [from, to],
                    ..
                }) => {
                    let place = format!("elements[{index}].between");
                    let from_shaft = self.shaft(&place, from);
                    let to_shaft = self.shaft(&place, to);
                    if from == to {
                        let problem = ("problem-same-ends", &[("id", &**from)][..]);
                        self.note(&place, problem, "fix-two-shafts");
                    }
                    from_shaft
                        .zip(to_shaft)
                        .map(|(a, b)| [Body::Shaft(a), Body::Shaft(b)])
                }
                Element::OneWay(OneWay { shaft, against, .. }) => {
                    let place = format!("elements[{index}]");
                    let shaft_index = self.shaft(&format!("{place}.shaft"), shaft);
                    let other = self.body(&format!("{place}.against"), against);
                    if shaft == against {
                        let problem = ("problem-against-itself", &[("id", &**shaft)][..]);
                        self.note(&place, problem, "fix-against-itself");
                    }
                    shaft_index.zip(other).map(|(a, b)| [Body::Shaft(a), b])
                }
            };
            elements.extend(ends);
            self.gap(index, element.gap());
            if let Some(friction) = element.friction() {
                let place = format!("elements[{index}].friction");
                self.problems.extend(friction.problems(&place));
            }
        }
        elements
    }

    pub(crate) fn ranges(&mut self) -> Vec<ElementSet> {
        let mut ranges = Vec::new();
        for (index, range) in self.scenario.ranges.iter().enumerate() {
            let place = format!("ranges[{index}].applied");
            let mut set = ElementSet::NONE;
            if range.applied.len() > limits::ELEMENTS {
                let most = limits::ELEMENTS.to_string();
                self.problems.push(Problem::new(
                    place,
                    counted("problem-entries", range.applied.len()),
                    said("fix-name-at-most", &[("most", &most)]),
                ));
                ranges.push(set);
                continue;
            }
            for id in &range.applied {
                let elements = &self.scenario.elements;
                match elements.iter().position(|element| element.id() == id) {
                    None => {
                        let known = elements.iter().map(Element::id);
                        self.problems.push(unknown("element", &place, id, known));
                    }
                    // An index beyond the limit has been reported by `texts`.
                    Some(element) if element >= limits::ELEMENTS => {}
                    Some(element) if elements[element].is_one_way() => {
                        self.note(&place, ("problem-one-way", &[("id", id)]), "fix-one-way");
                    }
                    Some(element) if set.contains(element) => {
                        let problem = ("problem-named-twice", &[("id", &**id)][..]);
                        self.note(&place, problem, "fix-named-twice");
                    }
                    Some(element) => set = set.with(element),
                }
            }
            ranges.push(set);
        }
        ranges
    }
}

#[cfg(test)]
mod tests {
    use crate::train::Train;

    #[test]
    fn labels_that_are_not_seen_or_steer_others_are_refused() {
        let file = include_str!("../../../scenarios/01-one-set.json");
        let Ok(mut scenario) = crate::Scenario::parse(file) else {
            panic!("the scenario does not parse")
        };
        let mut problem = |label: &str| {
            scenario.shafts[0].label = label.to_owned();
            let problems = Train::new(scenario.clone()).err().unwrap_or_default();
            let problems: Vec<String> = problems.iter().map(ToString::to_string).collect();
            problems.join("\n")
        };
        for label in [" ", "\u{200b}\u{feff}", "\u{3000}"] {
            assert!(
                problem(label).starts_with("shafts[0].label: has no character"),
                "{label:?}"
            );
        }
        for label in ["a\u{202e}b", "a\u{2066}b", "a\u{2028}b"] {
            let problem = problem(label);
            assert!(
                problem.starts_with("shafts[0].label: has U+20"),
                "{problem}"
            );
            assert!(problem.is_ascii(), "{problem}");
        }
        for label in ["עברית", "a b", "é", "کتاب\u{200c}ها"] {
            assert_eq!(problem(label), "");
        }
    }
}
