//! A gear train that fits together: every name resolved, every limit checked.

mod gearing;
mod validate;

use levertrain_exact::{Motions, Terms, Turning};

use crate::base::element_set::ElementSet;
use crate::base::problem::{MOST_PROBLEMS, Problem};
use crate::base::said::word;
use crate::model::scenario::{Element, Scenario};
use crate::train::gearing::Gearing;
use crate::train::validate::Checker;
pub(crate) use crate::train::validate::unknown;

/// What a member is part of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Body {
    /// The case: it never turns.
    Housing,
    /// The shaft with this index in the scenario.
    Shaft(usize),
}

/// A checked gear train, ready to be solved.
///
/// Invariant: every index held here is in range of the scenario's lists, input and output are
/// different shafts, and no coupling or element joins a body to itself.
#[derive(Debug, Clone)]
pub struct Train {
    scenario: Scenario,
    input: usize,
    output: usize,
    members: Vec<Vec<Body>>,
    ends: Vec<[Body; 2]>,
    ranges: Vec<ElementSet>,
    gearing: Vec<Gearing>,
    coupled: Motions,
    /// The same seen from the input.
    turning: Turning,
    /// The equation each element adds while it is applied.
    slips: Vec<Terms>,
}

impl Train {
    /// Reads and checks a scenario file.
    ///
    /// # Errors
    /// Those of [`Scenario::parse`] and of [`Train::new`].
    pub fn parse(text: &str) -> Result<Self, Vec<Problem>> {
        Scenario::parse(text).and_then(Self::new)
    }

    /// Checks a scenario.
    ///
    /// # Errors
    /// Every problem found: ids or labels that are empty, too long, repeated or unknown, a list
    /// that is too short or too long, an input or output that is the housing or the same
    /// shaft, a coupling or element that joins a body to itself, an engine, converter or load
    /// with a table that does not make sense.
    pub fn new(scenario: Scenario) -> Result<Self, Vec<Problem>> {
        let mut check = Checker::new(&scenario);
        check.texts();
        let input = check.shaft("input", &scenario.input);
        let output = check.shaft("output", &scenario.output);
        if input.is_some() && input == output {
            check.note(
                "output",
                ("problem-input-as-well", &[("id", &scenario.output)]),
                "fix-another-shaft",
            );
        }
        let members = check.members();
        let ends = check.ends();
        let ranges = check.ranges();
        check.surroundings();
        let mut problems = check.problems;
        problems.truncate(MOST_PROBLEMS);
        let (Some(input), Some(output), true) = (input, output, problems.is_empty()) else {
            return Err(problems);
        };
        let couplings = scenario.couplings.iter();
        let gearing: Vec<Gearing> = couplings
            .map(|coupling| Gearing::of(coupling.facts()))
            .collect();
        let coupled = coupled_motions(scenario.shafts.len(), &gearing, &members, |_| true);
        let slip = |&[from, to]: &[Body; 2]| speed_terms([(from, 1), (to, -1)]);
        Ok(Self {
            turning: coupled.turning(input),
            slips: ends.iter().map(slip).collect(),
            scenario,
            input,
            output,
            members,
            ends,
            ranges,
            gearing,
            coupled,
        })
    }

    /// The same train as a scenario with other kinds of elements and more shafts, which may be more than a
    /// file may have, with its members on these; teeth, ends, ranges, input and output stay as they are.
    pub(crate) fn rearranged(&self, scenario: Scenario, members: Vec<Vec<Body>>) -> Self {
        let coupled = coupled_motions(scenario.shafts.len(), &self.gearing, &members, |_| true);
        Self {
            turning: coupled.turning(self.input),
            coupled,
            scenario,
            members,
            input: self.input,
            output: self.output,
            ends: self.ends.clone(),
            ranges: self.ranges.clone(),
            gearing: self.gearing.clone(),
            slips: self.slips.clone(),
        }
    }

    /// The scenario this train was made from.
    pub fn scenario(&self) -> &Scenario {
        &self.scenario
    }

    /// Index of the input shaft.
    pub fn input(&self) -> usize {
        self.input
    }

    /// Index of the output shaft.
    pub fn output(&self) -> usize {
        self.output
    }

    /// What each member of coupling `coupling` is part of, in the coupling's member order.
    pub fn members(&self, coupling: usize) -> &[Body] {
        &self.members[coupling]
    }

    /// The two bodies element `element` joins; for a brake the second is the housing.
    pub fn ends(&self, element: usize) -> [Body; 2] {
        self.ends[element]
    }

    /// The elements applied in range `range`.
    pub fn range(&self, range: usize) -> ElementSet {
        self.ranges[range]
    }

    /// Index of the element with this id.
    pub fn element(&self, id: &str) -> Option<usize> {
        self.scenario
            .elements
            .iter()
            .position(|element| element.id() == id)
    }

    /// The elements that lock and overrun by themselves.
    pub fn one_ways(&self) -> ElementSet {
        let elements = self.scenario.elements.iter().enumerate();
        elements
            .filter(|(_, element)| element.is_one_way())
            .map(|(index, _)| index)
            .collect()
    }

    /// The set of the elements with these ids.
    ///
    /// # Errors
    /// A problem for each id that no element has, and for each one-way clutch.
    pub fn element_set<'a>(
        &self,
        ids: impl IntoIterator<Item = &'a str>,
    ) -> Result<ElementSet, Vec<Problem>> {
        let mut problems = Vec::new();
        let mut set = ElementSet::NONE;
        for id in ids {
            match self.element(id) {
                Some(index) if self.scenario.elements[index].is_one_way() => {
                    problems.push(Problem::of(
                        word("place-applied"),
                        ("problem-one-way", &[("id", id)]),
                        ("fix-one-way", &[]),
                    ));
                }
                Some(index) => set = set.with(index),
                None => problems.push(self.unknown_element(word("place-applied"), id)),
            }
        }
        if problems.is_empty() {
            Ok(set)
        } else {
            Err(problems)
        }
    }

    fn unknown_element(&self, place: &str, id: &str) -> Problem {
        let known = self.scenario.elements.iter().map(Element::id);
        unknown("element", place, id, known)
    }

    /// What people call a body.
    pub fn body_label(&self, body: Body) -> &str {
        match body {
            Body::Housing => self
                .scenario
                .housing_label
                .as_deref()
                .unwrap_or_else(|| word("housing")),
            Body::Shaft(shaft) => &self.scenario.shafts[shaft].label,
        }
    }

    /// The equations of coupling `coupling`.
    pub(crate) fn gearing(&self, coupling: usize) -> &Gearing {
        &self.gearing[coupling]
    }

    /// The motions the couplings allow with every element released.
    pub(crate) fn coupled(&self) -> &Motions {
        &self.coupled
    }

    /// The motions that only the couplings picked by `keep` allow.
    pub(crate) fn coupled_by(&self, keep: impl Fn(usize) -> bool) -> Motions {
        coupled_motions(
            self.scenario.shafts.len(),
            &self.gearing,
            &self.members,
            keep,
        )
    }

    /// The equation an applied element adds: the speed difference across it.
    pub(crate) fn slip_terms(&self, element: usize) -> &Terms {
        &self.slips[element]
    }

    /// Those of all elements.
    pub(crate) fn slips(&self) -> &[Terms] {
        &self.slips
    }

    /// The motions the couplings allow with every element released, seen from the input.
    pub(crate) fn turning(&self) -> &Turning {
        &self.turning
    }
}

/// A linear expression of body speeds as one of shaft speeds: like terms collected, the
/// housing left out.
pub(crate) fn speed_terms(parts: impl IntoIterator<Item = (Body, i64)>) -> Terms {
    let mut terms = Terms::new();
    for (body, coefficient) in parts {
        let Body::Shaft(shaft) = body else { continue };
        match terms.iter_mut().find(|(known, _)| *known == shaft) {
            Some((_, sum)) => *sum += coefficient,
            None => terms.push((shaft, coefficient)),
        }
    }
    terms.retain(|&(_, coefficient)| coefficient != 0);
    terms
}

fn coupled_motions(
    shafts: usize,
    gearing: &[Gearing],
    members: &[Vec<Body>],
    keep: impl Fn(usize) -> bool,
) -> Motions {
    let mut motions = Motions::free(shafts);
    for (index, (gearing, bodies)) in gearing.iter().zip(members).enumerate() {
        if !keep(index) {
            continue;
        }
        for row in &gearing.mesh_rows {
            let terms = speed_terms(bodies.iter().copied().zip(row.iter().copied()));
            if let Some(narrowed) = motions.constrained(&terms) {
                motions = narrowed;
            }
        }
    }
    motions
}
