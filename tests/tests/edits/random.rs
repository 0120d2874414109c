//! Edits at random, in long rows, and the way back.

use anyhow::{Result, ensure};
use levertrain_core::edit::{History, blank, text};
use levertrain_core::{Scenario, Train};
use proptest::prelude::Rng;
use proptest::test_runner::{RngAlgorithm, TestRng};
use serde_json::{Value, json};

use crate::{KINDS, all, edit};

/// Edits at random, most of which make sense.
struct Monkey(TestRng);

impl Monkey {
    fn below(&mut self, n: usize) -> usize {
        self.0.next_u64() as usize % n.max(1)
    }

    fn of<T: Clone>(&mut self, items: &[T]) -> Option<T> {
        (!items.is_empty()).then(|| items[self.below(items.len())].clone())
    }

    fn edit(&mut self, scenario: &Scenario) -> Option<Value> {
        let list =
            |items: Vec<&str>| -> Vec<String> { items.into_iter().map(str::to_owned).collect() };
        let shafts = list(scenario.shafts.iter().map(|x| &*x.id).collect());
        let sets = list(scenario.couplings.iter().map(|x| x.facts().id()).collect());
        let elements = list(scenario.elements.iter().map(|x| x.id()).collect());
        let applied = scenario.elements.iter().filter(|x| !x.is_one_way());
        let applied = list(applied.map(|x| x.id()).collect());
        let ranges = list(scenario.ranges.iter().map(|x| &*x.id).collect());
        let at = self.below(13);
        let label = format!("Label {}", self.below(99));
        let shaft = self.of(&shafts)?;
        let other = match self.below(4) {
            0 => "housing".to_owned(),
            _ => self.of(&shafts)?,
        };
        let rows = self.of(&["full", "motoring", "table", "load"])?;
        let part = self.of(&["engine", "converter", "load"])?;
        let there = self.below(4) > 0;
        Some(match self.below(32) {
            0 => json!({"edit": "name", "name": label}),
            1 => json!({"edit": "housing", "label": if at > 6 { "" } else { "Case" }}),
            2 => json!({"edit": "input", "shaft": shaft}),
            3 => json!({"edit": "output", "shaft": shaft}),
            4 | 5 => json!({"edit": "add-set", "kind": self.of(&KINDS)?, "at": at}),
            6 => json!({"edit": "repeat-set", "set": self.of(&sets)?}),
            7 => json!({"edit": "remove-set", "set": self.of(&sets)?}),
            8 => json!({"edit": "move-set", "set": self.of(&sets)?, "at": at}),
            9 => json!({"edit": "label-set", "set": self.of(&sets)?, "label": label}),
            10 => {
                json!({"edit": "teeth", "set": self.of(&sets)?, "gear": self.below(5), "teeth": 6 + self.below(120)})
            }
            11 => json!({"edit": "count", "set": self.of(&sets)?, "count": 1 + self.below(12)}),
            12 => json!({"edit": "mesh", "set": self.of(&sets)?, "mesh": "internal"}),
            13 => {
                json!({"edit": "place", "set": self.of(&sets)?, "member": self.below(4), "shaft": other})
            }
            14 => {
                json!({"edit": "place", "set": self.of(&sets)?, "member": self.below(4), "shaft": ""})
            }
            15 => json!({"edit": "connect", "first": shaft, "second": other}),
            16 => json!({"edit": "label-shaft", "shaft": shaft, "label": label}),
            17 => {
                json!({"edit": "add-element", "kind": self.of(&["brake", "clutch", "one-way"])?, "ends": [shaft, other]})
            }
            18 => json!({"edit": "remove-element", "element": self.of(&elements)?}),
            19 => json!({"edit": "ends", "element": self.of(&elements)?, "ends": [shaft, other]}),
            20 => json!({"edit": "move-element", "element": self.of(&elements)?, "at": at}),
            21 => json!({"edit": "add-range", "label": "", "applied": [self.of(&applied)?]}),
            22 => json!({"edit": "remove-range", "range": self.of(&ranges)?}),
            23 => json!({"edit": "move-range", "range": self.of(&ranges)?, "at": at}),
            24 | 25 => json!({"edit": "surround", "part": part, "there": there}),
            26 => json!({"edit": "label-part", "part": part, "label": label}),
            27 | 28 => {
                let amount = [0.5, 1.0, 20.0, 900.0][self.below(4)] + f64::from(at as u32);
                json!({"edit": "amount", "rows": rows, "at": self.below(5), "column": self.below(4), "amount": amount})
            }
            29 | 30 => json!({"edit": "point", "rows": rows, "at": self.below(5), "there": there}),
            _ => json!({"edit": "label-range", "range": self.of(&ranges)?, "label": label}),
        })
    }
}

/// How many edits are tried on each train, and how many of them at least must go through: else the test
/// would try nothing.
const TRIED: usize = 10_000;
const MADE: usize = 1_500;

/// Catches edits that leave a scenario which is no train though they say nothing against it, and steps
/// that do not lead back to the very start.
#[test]
fn ten_thousand_edits_lead_back_to_the_start() -> Result<()> {
    let mut monkey = Monkey(TestRng::deterministic_rng(RngAlgorithm::ChaCha));
    let mut starts = all()?;
    starts.push(blank());
    for start in starts {
        let mut scenario = start.clone();
        let mut history = History::default();
        // More steps than are kept at once: it goes back whenever there are as many as it keeps.
        let (mut made, mut since) = (0, scenario.clone());
        for _ in 0..TRIED {
            let Some(value) = monkey.edit(&scenario) else {
                continue;
            };
            let edit = edit(&value)?;
            let Ok(next) = edit.of(&scenario) else {
                continue;
            };
            if let Err(problems) = Train::new(next.clone()) {
                // Only what a limit of the format forbids is left to be found there.
                let told = problems.iter().map(ToString::to_string).collect::<String>();
                let of_points = problems.iter().all(|problem| {
                    ["engine", "converter"]
                        .iter()
                        .any(|part| problem.place.starts_with(part))
                });
                ensure!(
                    told.contains("have ") || told.contains("is another member") || of_points,
                    "{value}: {told}"
                );
                continue;
            }
            history.note(&edit, &scenario, &next, false);
            made += usize::from(next != scenario);
            scenario = next;
            if history.depth()[0] == 900 {
                check_way_back(&mut history, &since, &scenario)?;
                history = History::default();
                since = scenario.clone();
            }
        }
        check_way_back(&mut history, &since, &scenario)?;
        ensure!(made > MADE, "{}: only {made} edits were made", start.name);
    }
    Ok(())
}

fn check_way_back(history: &mut History, start: &Scenario, end: &Scenario) -> Result<()> {
    let mut now = end.clone();
    while let Some(before) = history.undo(&now) {
        now = before;
    }
    ensure!(text(&now) == text(start), "not back at the start");
    while let Some(after) = history.redo(&now) {
        now = after;
    }
    ensure!(text(&now) == text(end), "not at the end again");
    Ok(())
}
