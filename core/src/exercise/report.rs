//! Questions and marks as plain data for the page.

use serde::Serialize;

use super::answer::Marked;
use super::failed;
use super::hint::{elements, trial_label};
use super::members::members;
use super::neutral::MOST;
use super::read::Way;
use super::sheet::Sheet;
use super::task::{Kind, Task, name_of, sets_of};
use super::write::TaskReport;
use crate::base::catalogue::{Catalogue, Values};
use crate::base::number::number;
use crate::faults::{Outcome, Trial};
use crate::report::Exact;
use crate::train::{Body, Train};
use crate::words::noun;

/// A question, with nothing that answers it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Question"))]
pub struct QuestionReport {
    /// The task as a file has it.
    pub task: TaskReport,
    /// The question as a sentence.
    pub text: String,
    /// What is known: which elements are applied, where that is given.
    pub given: Option<String>,
    /// How it is answered: `stage` by applying elements, `one` or `many` by picking, `order` by putting in
    /// order, `number` by writing one, `counts` by writing one for each.
    #[cfg_attr(
        feature = "types",
        ts(type = "\"stage\" | \"one\" | \"many\" | \"order\" | \"number\" | \"counts\"")
    )]
    pub by: &'static str,
    /// What there is to pick, put in order or count.
    pub choices: Vec<ChoiceReport>,
    /// What the ranges have become, where that is what the question is about.
    pub rows: Vec<RowReport>,
    /// Id of the range that it is about, whose speeds it asks for.
    pub range: Option<String>,
}

/// What a range has become.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "QuestionRow"))]
pub struct RowReport {
    /// What people call the range, and what it applies.
    pub label: String,
    /// Its outcome as one word.
    pub does: &'static str,
    /// The ratio that it has and should not have.
    pub ratio: Option<Exact>,
    /// The same in words.
    pub words: String,
}

/// One choice.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Choice"))]
pub struct ChoiceReport {
    /// What an answer calls it.
    pub id: String,
    /// What people call it.
    pub label: String,
    /// What a gear has now.
    pub now: Option<u32>,
}

/// What an answer is worth.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Mark"))]
pub struct MarkReport {
    /// From 0 to 1.
    pub credit: Exact,
    /// Whether all of it is right.
    pub right: bool,
    /// What to look at next, as sentences.
    pub hints: Vec<String>,
}

/// The questions of a sheet.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "ExerciseSheet"))]
pub struct SheetReport {
    /// What people call it.
    pub title: String,
    /// Ids of the ranges to walk through first.
    pub walk: Vec<String>,
    /// In the order in which they are set.
    pub questions: Vec<QuestionReport>,
}

impl SheetReport {
    /// The questions of a sheet about a train.
    pub fn of(train: &Train, sheet: &Sheet) -> Self {
        let questions = sheet.tasks.iter();
        Self {
            title: sheet.title.clone(),
            walk: sheet
                .walk
                .iter()
                .map(|&range| train.scenario().ranges[range].id.clone())
                .collect(),
            questions: questions
                .map(|task| QuestionReport::of(train, task))
                .collect(),
        }
    }
}

impl MarkReport {
    /// The mark of an answer.
    pub fn of(train: &Train, marked: &Marked) -> Self {
        Self {
            credit: Exact::from(&marked.credit),
            right: marked.is_right(),
            hints: marked.hints.iter().map(|hint| hint.words(train)).collect(),
        }
    }
}

impl QuestionReport {
    /// The question of a task.
    pub fn of(train: &Train, task: &Task) -> Self {
        let asker = Asker { train };
        Self {
            task: TaskReport::of(train, task),
            text: asker.text(task),
            given: task.range().map(|range| asker.given(range)),
            by: match task.kind() {
                Kind::Reach => "stage",
                Kind::Direction | Kind::Failed => "one",
                Kind::Members | Kind::Neutral | Kind::TieUp => "many",
                Kind::Speed => "number",
                Kind::Order => "order",
                Kind::Teeth => "counts",
            },
            choices: asker.choices(task),
            rows: asker.rows(task),
            range: task
                .range()
                .map(|range| train.scenario().ranges[range].id.clone()),
        }
    }
}

struct Asker<'a> {
    train: &'a Train,
}

impl Asker<'_> {
    fn text(&self, task: &Task) -> String {
        let range = |at: usize| self.train.scenario().ranges[at].label.clone();
        let set = |at: usize| noun(self.train.scenario().couplings[at].facts().label());
        let shaft = |at: usize| noun(self.train.body_label(Body::Shaft(at)));
        match task {
            Task::Reach { ratio } => {
                let about = number(ratio.to_f64(), 4);
                let exact = ratio.to_string().replace('-', "\u{2212}");
                say("ask-reach", 0, &[("about", &about), ("exact", &exact)])
            }
            Task::Members {
                range: at,
                set: of,
                part,
            } => {
                let values = [
                    ("range", &*range(*at)),
                    ("set", &set(*of)),
                    ("part", part.id()),
                ];
                say("ask-members", 0, &values)
            }
            Task::Direction {
                range: at,
                shaft: of,
            } => say(
                "ask-direction",
                0,
                &[("range", &range(*at)), ("shaft", &shaft(*of))],
            ),
            Task::Speed {
                range: at,
                shaft: of,
            } => say(
                "ask-speed",
                0,
                &[("range", &range(*at)), ("shaft", &shaft(*of))],
            ),
            Task::Neutral { applied } => say("ask-neutral", *applied, &[]),
            Task::TieUp { .. } => say("ask-tie-up", 0, &[]),
            Task::Failed { .. } => say("ask-failed", 0, &[]),
            Task::Order { .. } => say("ask-order", 0, &[]),
            Task::Teeth {
                range: at,
                set: of,
                ratio,
            } => {
                let about = number(ratio.to_f64(), 4);
                let exact = ratio.to_string().replace('-', "\u{2212}");
                let (range, set) = (range(*at), set(*of));
                let values = [
                    ("range", &*range),
                    ("set", &set),
                    ("about", &about),
                    ("exact", &exact),
                ];
                say("ask-teeth", 0, &values)
            }
        }
    }

    fn given(&self, range: usize) -> String {
        let applied = self.train.range(range);
        let label = &*self.train.scenario().ranges[range].label;
        let values = [
            ("range", label),
            ("elements", &elements(self.train, applied)),
        ];
        say("ask-given", applied.len(), &values)
    }

    fn rows(&self, task: &Task) -> Vec<RowReport> {
        let Task::Failed { seed } = task else {
            return Vec::new();
        };
        let rows = failed::shown(self.train, *seed).unwrap_or_default();
        let row = |(trial, outcome): (Trial, Outcome)| {
            let ratio = outcome.ratio();
            let about = ratio.map_or(String::new(), |ratio| number(ratio.to_f64(), 4));
            let values = [("does", outcome.key()), ("ratio", &*about)];
            let range = trial_label(self.train, trial.range);
            let ids = trial.applied.iter();
            let ids: Vec<&str> = ids
                .map(|element| self.train.scenario().elements[element].id())
                .collect();
            // What a range applies is known: the question is what has become of it.
            let label = match ids.is_empty() {
                true => range,
                false => say(
                    "ask-row",
                    0,
                    &[("range", &range), ("elements", &ids.join(" "))],
                ),
            };
            RowReport {
                label,
                does: outcome.key(),
                ratio: ratio.map(Exact::from),
                words: say("ask-becomes", 0, &values),
            }
        };
        rows.into_iter().map(row).collect()
    }

    fn choices(&self, task: &Task) -> Vec<ChoiceReport> {
        let scenario = self.train.scenario();
        let plain = |id: String, label: String| ChoiceReport {
            id,
            label,
            now: None,
        };
        let combination = |set| plain(name_of(self.train, set), elements(self.train, set));
        match task {
            Task::Reach { .. } | Task::Speed { .. } => Vec::new(),
            Task::Members { range, set, .. } => {
                let roles = scenario.couplings[*set].facts().members();
                let members = members(self.train, *range, *set)
                    .unwrap_or_default()
                    .into_iter();
                let choice = |at: usize| plain(at.to_string(), roles[at].role.word().to_owned());
                members.map(|does| choice(does.member)).collect()
            }
            Task::Direction { .. } => Way::ALL
                .iter()
                .map(|way| plain(way.id().to_owned(), say("ask-way", 0, &[("way", way.id())])))
                .collect(),
            Task::Neutral { applied } => {
                let sets = sets_of(self.train, *applied, MOST).unwrap_or_default();
                sets.into_iter().map(combination).collect()
            }
            Task::TieUp { among } => among.iter().copied().map(combination).collect(),
            Task::Failed { .. } => (0..scenario.elements.len())
                .map(|element| &scenario.elements[element])
                .map(|element| plain(element.id().to_owned(), element.label().to_owned()))
                .collect(),
            Task::Order { ranges } => ranges
                .iter()
                .map(|&range| &scenario.ranges[range])
                .map(|range| plain(range.id.clone(), range.label.clone()))
                .collect(),
            Task::Teeth { set, .. } => {
                let mut copy = scenario.couplings[*set].clone();
                let gears = copy.parts().teeth.into_iter().enumerate();
                gears
                    .map(|(at, (name, teeth))| ChoiceReport {
                        id: at.to_string(),
                        label: name.word().to_owned(),
                        now: Some(teeth.get()),
                    })
                    .collect()
            }
        }
    }
}

fn say(key: &str, count: usize, values: Values<'_>) -> String {
    Catalogue::spoken().write(key, count, values)
}
