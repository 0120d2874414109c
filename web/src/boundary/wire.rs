//! What crosses the wasm boundary besides the core's reports: plain data for the page.

use levertrain_core::json::{Spot, spot};
use levertrain_core::report::{
    CombinationReport, Explanation, MemberReport, WarningReport, warnings,
};
use levertrain_core::words::{Case, noun_as};
use levertrain_core::{Body, Duty, ElementSet, Problem, Scenario, Train, TrainLever};
use serde::Serialize;

use crate::draw::section::Layout;

pub use super::sheet::{NearRatios, Sheet};

/// A train as the page needs it to build its controls.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct TrainInfo<'a> {
    name: &'a str,
    about: &'a str,
    /// What the housing is called.
    housing: &'a str,
    input: &'a str,
    output: &'a str,
    shafts: Vec<Named<'a>>,
    couplings: Vec<CouplingInfo<'a>>,
    elements: Vec<ElementInfo<'a>>,
    ranges: Vec<RangeInfo<'a>>,
    warnings: Vec<WarningReport>,
    /// Whether any two levers can be joined in one.
    joinable: bool,
    /// What the half-section shows that cannot be built.
    caution: Option<String>,
    /// Whether shafts cross in it that need not: the whole engine may draw them otherwise.
    needless: bool,
    /// Whether any clutch or brake has friction data.
    friction: bool,
    /// Labels of what stands around the train.
    engine: Option<&'a str>,
    converter: Option<&'a str>,
    load: Option<&'a str>,
}

#[derive(Debug, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
struct Named<'a> {
    id: &'a str,
    label: &'a str,
}

#[derive(Debug, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
struct CouplingInfo<'a> {
    id: &'a str,
    label: &'a str,
    kind: &'static str,
    members: Vec<MemberReport>,
}

#[derive(Debug, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
struct ElementInfo<'a> {
    id: &'a str,
    label: &'a str,
    #[cfg_attr(feature = "types", ts(type = "ElementKind"))]
    kind: &'static str,
    /// Labels of the two bodies it joins.
    ends: [&'a str; 2],
    /// The same inside a sentence.
    nouns: [String; 2],
}

#[derive(Debug, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
struct RangeInfo<'a> {
    id: &'a str,
    label: &'a str,
    applied: &'a [String],
}

impl<'a> TrainInfo<'a> {
    /// Describes a train and its layout.
    pub fn of(train: &'a Train, layout: &Layout) -> Self {
        let scenario = train.scenario();
        let elements = scenario
            .elements
            .iter()
            .enumerate()
            .map(|(index, element)| ElementInfo {
                id: element.id(),
                label: element.label(),
                kind: element.kind(),
                ends: train.ends(index).map(|body| train.body_label(body)),
                nouns: train
                    .ends(index)
                    .map(|body| noun_as(train.body_label(body), Case::Object)),
            });
        let couplings = scenario.couplings.iter().map(|coupling| {
            let facts = coupling.facts();
            let members = facts.members().into_iter().map(|member| MemberReport {
                role: member.role.word(),
                letter: member.role.letter(),
                shaft: member.shaft.to_owned(),
                teeth: member.teeth.map(u32::from),
                speed: None,
            });
            CouplingInfo {
                id: facts.id(),
                label: facts.label(),
                kind: facts.kind_words(),
                members: members.collect(),
            }
        });
        let ranges = scenario.ranges.iter().map(|range| RangeInfo {
            id: &range.id,
            label: &range.label,
            applied: &range.applied,
        });
        Self {
            name: &scenario.name,
            about: &scenario.about,
            housing: train.body_label(Body::Housing),
            input: &scenario.input,
            output: &scenario.output,
            shafts: scenario
                .shafts
                .iter()
                .map(|x| Named {
                    id: &x.id,
                    label: &x.label,
                })
                .collect(),
            couplings: couplings.collect(),
            elements: elements.collect(),
            ranges: ranges.collect(),
            warnings: warnings(train),
            caution: layout.caution(),
            needless: layout.crosses_needlessly(),
            joinable: TrainLever::merged(train).len() < TrainLever::separate(train).len(),
            friction: scenario.elements.iter().any(|x| x.friction().is_some()),
            engine: scenario.engine.as_ref().map(|x| x.label.as_str()),
            converter: scenario.converter.as_ref().map(|x| x.label.as_str()),
            load: scenario.load.as_ref().map(|x| x.label.as_str()),
        }
    }
}

/// What a combination does and why, with the motion of each shaft as a word.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[serde(rename_all = "camelCase")]
pub struct Answer {
    #[serde(flatten)]
    combination: CombinationReport,
    #[serde(flatten)]
    explanation: Explanation,
    /// `held`, `forward`, `backward`, `free` or `fights`, in the order of the shafts.
    #[cfg_attr(feature = "types", ts(type = "Array<MotionWord>"))]
    motions: Vec<&'static str>,
    /// Id of the named range that applies exactly these elements.
    range: Option<String>,
    /// `settled`, `ambiguous` or `contradictory`: how the one-way clutches settle.
    #[cfg_attr(feature = "types", ts(type = "OneWays"))]
    one_ways: &'static str,
    /// Whether the input holds the output back when the load drives.
    engine_braking: bool,
}

impl Answer {
    /// Describes what these applied elements do, one-way clutches settled for drive.
    pub fn of(train: &Train, applied: ElementSet) -> Self {
        let settled = train.settle(applied, Duty::Drive);
        let combination = &settled.combination;
        let named = (0..train.scenario().ranges.len()).find(|&range| train.range(range) == applied);
        Self {
            combination: combination.into(),
            explanation: combination.into(),
            motions: crate::motion::live::motions(combination)
                .iter()
                .map(|m| m.key())
                .collect(),
            one_ways: settled.verdict.key(),
            engine_braking: train.coasts_alike(applied, combination.state().ratio()),
            range: named.map(|range| train.scenario().ranges[range].id.clone()),
        }
    }
}

/// A problem of a text, and where in the text it is: both from 1, columns as browsers count letters.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct TextProblem {
    place: String,
    problem: String,
    fix: String,
    line: usize,
    column: usize,
}

impl TextProblem {
    /// What keeps a text from being a train, problem by problem; nothing where it is one.
    pub fn all_in(text: &str) -> Vec<Self> {
        let train = Scenario::parse(text).and_then(Train::new);
        let problems = train.err().unwrap_or_default().into_iter();
        let placed = problems.map(|problem| {
            let Spot { line, column } = spot(text, &problem.place);
            Self {
                place: problem.place,
                problem: problem.what,
                fix: problem.fix,
                line,
                column,
            }
        });
        placed.collect()
    }
}

/// A problem for the page.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct ProblemInfo {
    place: String,
    problem: String,
    fix: String,
}

impl From<Problem> for ProblemInfo {
    fn from(problem: Problem) -> Self {
        Self {
            place: problem.place,
            problem: problem.what,
            fix: problem.fix,
        }
    }
}
