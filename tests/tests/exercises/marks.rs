//! What answers are worth, and what is told of wrong ones.

use anyhow::{Context, Result, anyhow, ensure};
use levertrain_core::exercise::{Hint, MarkReport, QuestionReport, Sheet, Task};
use levertrain_core::faults::{Fault, Faulty, Trial};
use levertrain_core::report::Exact;
use levertrain_core::{Duty, Fraction, Train};
use serde_json::{Value, json};

use super::{answers, tasks, trains};

/// Catches a hint on a failed element that is wrong of one of the faults that this can have.
#[test]
fn a_range_that_tells_an_element_apart_does_so_whatever_is_wrong_with_it() -> Result<()> {
    let mut told = 0;
    for (stem, train) in trains()? {
        for task in tasks(&train) {
            let Task::Failed { .. } = task else {
                continue;
            };
            let rows = QuestionReport::of(&train, &task).rows;
            for answer in answers(&train, &task) {
                for hint in task.mark(&train, &answer).hints {
                    let Hint::Becomes { element, range } = hint else {
                        continue;
                    };
                    let mut pairs = Trial::all(&train).into_iter().zip(&rows);
                    let found = pairs.find(|(trial, _)| trial.range == range);
                    let (trial, row) = found.context("a trial of the range")?;
                    let own = Fault::all(&train).into_iter().filter(|fault| {
                        fault.element() == Some(element) && !matches!(fault, Fault::Slips(_))
                    });
                    for fault in own {
                        let outcome = Faulty::new(&train, &[fault]).outcome(&trial);
                        let becomes = (outcome.key(), outcome.ratio().map(Exact::from));
                        ensure!(
                            becomes != (row.does, row.ratio.clone()),
                            "{stem}: {task:?}, {answer:?}: {fault:?}"
                        );
                    }
                    told += 1;
                }
            }
        }
    }
    ensure!(told > 30, "only {told}");
    Ok(())
}

/// Catches speeds that are marked by more than their size and sign, and hints that lead astray.
#[test]
fn a_speed_is_worth_what_it_is_near() -> Result<()> {
    let mut count = 0;
    for (stem, train) in trains()? {
        for task in tasks(&train) {
            let Task::Speed { range, shaft } = task else {
                continue;
            };
            let combination = train.settle(train.range(range), Duty::Drive).combination;
            let speed = combination.shaft_speed(shaft).context("a speed")?;
            let mark = |value: f64| task.mark(&train, &[format!("{value:.9}")]);
            let exact = speed.to_f64();
            for (factor, credit) in [
                (1.009, 1.0),
                (0.991, 1.0),
                (1.09, 0.5),
                (0.91, 0.5),
                (1.2, 0.25),
                (0.5, 0.25),
                (-1.0, 0.0),
                (0.0, 0.0),
            ] {
                let marked = mark(exact * factor);
                let found = marked.credit.to_f64();
                ensure!(found == credit, "{stem}: {factor} × {speed} gives {found}");
                ensure!(marked.is_right() == marked.hints.is_empty(), "{marked:?}");
            }
            let hint = |value: f64| {
                let report = MarkReport::of(&train, &mark(value));
                report.hints.concat()
            };
            for (factor, word) in [(1.3, "slower"), (0.7, "faster")] {
                let value = exact * factor;
                // Where that is one over it, too, it says so.
                let turned = (value * exact - 1.0).abs() <= 0.01;
                let word = if turned { "other way round" } else { word };
                ensure!(hint(value).contains(word), "{}", hint(value));
            }
            ensure!(hint(-exact).contains("direction"), "{}", hint(-exact));
            let away = hint(-exact * 3.0);
            ensure!(away.starts_with("It turns the other way."), "{away}");
            ensure!(!hint(0.0).contains("the other way"), "{}", hint(0.0));
            count += 1;
        }
    }
    ensure!(count > 30, "only {count} speeds");
    Ok(())
}

/// Catches teeth that reach the ratio and break a rule but are worth all, and a set that is not the one asked about.
#[test]
fn teeth_are_worth_half_where_they_break_a_rule() -> Result<()> {
    let mut broken = 0;
    for (stem, train) in trains()? {
        for task in tasks(&train) {
            let Task::Teeth { set, .. } = &task else {
                continue;
            };
            let right = task.solve(&train).context("teeth")?;
            let own: Vec<String> = QuestionReport::of(&train, &task)
                .choices
                .iter()
                .filter_map(|choice| Some(choice.now?.to_string()))
                .collect();
            ensure!(own.len() == right.len(), "{own:?} {right:?}");
            let kept = task.mark(&train, &own);
            ensure!(
                !kept.is_right(),
                "{stem}: its own teeth {own:?} are the answer"
            );
            // A pinion of its own changes no ratio of a set with one row of them.
            let simple = train.scenario().couplings[*set].facts().kind_words();
            if simple == "planetary set, one pinion row" {
                let mut spoilt = right.clone();
                spoilt[1] = (spoilt[1].parse::<u32>()? + 1).to_string();
                let marked = task.mark(&train, &spoilt);
                ensure!(
                    marked.credit == Fraction::new(1, 2).context("half")?,
                    "{marked:?}"
                );
                broken += 1;
            }
            for wrong in [
                vec![],
                vec!["6".to_owned()],
                vec!["x".to_owned(); own.len()],
            ] {
                ensure!(task.mark(&train, &wrong).credit.is_zero(), "{wrong:?}");
            }
        }
    }
    ensure!(broken > 10, "only {broken} rules were broken");
    Ok(())
}

/// Catches picking everything, or nothing, that is worth something.
#[test]
fn picking_all_is_worth_no_more_than_chance() -> Result<()> {
    for (stem, train) in trains()? {
        for task in tasks(&train) {
            let question = QuestionReport::of(&train, &task);
            if question.by != "many" {
                continue;
            }
            let all: Vec<String> = question
                .choices
                .iter()
                .map(|choice| choice.id.clone())
                .collect();
            let right = task.solve(&train).context("an answer")?;
            let marked = task.mark(&train, &all);
            let share = right.len().saturating_sub(all.len() - right.len());
            ensure!(
                marked.credit.to_f64() == share as f64 / right.len() as f64,
                "{stem}: {task:?} {marked:?}"
            );
            // Each right one more is worth as much as each other.
            for count in 1..=right.len() {
                let marked = task.mark(&train, &right[..count]);
                ensure!(
                    marked.credit.to_f64() == count as f64 / right.len() as f64,
                    "{stem}: {count} of {right:?}: {marked:?}"
                );
            }
        }
    }
    Ok(())
}

/// The first hint after an answer to the first task of a kind that a train has.
fn hint(train: &Train, task: Value, answer: &[&str]) -> Result<Vec<Hint>> {
    let sheet = json!({"format": 1, "title": "T", "tasks": [task]}).to_string();
    let sheet = Sheet::parse(train, &sheet).map_err(|problems| anyhow!("{problems:?}"))?;
    let answer: Vec<String> = answer.iter().map(|id| (*id).to_owned()).collect();
    let task = sheet.tasks.first().context("a task")?;
    Ok(task.mark(train, &answer).hints)
}

/// Two that stand the wrong way round take back what two in order give, so that any order is worth little by chance.
#[test]
fn an_order_is_worth_the_pairs_that_stand_right_less_those_that_do_not() -> Result<()> {
    let trains = trains()?;
    let train = trains
        .iter()
        .find(|(stem, _)| stem == "09-six-speed-front-set");
    let (_, train) = train.context("a train")?;
    let ids = ["1", "2", "3", "4"];
    let sheet = json!({"format": 1, "title": "T", "tasks": [{"task": "order", "ranges": ids}]});
    let sheet = Sheet::parse(train, &sheet.to_string()).map_err(|wrong| anyhow!("{wrong:?}"))?;
    let task = sheet.tasks.first().context("a task")?;
    let (mut sum, mut count) = (0.0, 0);
    for a in 0..4 {
        for b in 0..4 {
            for c in 0..4 {
                let order = [a, b, c, 6_usize.wrapping_sub(a + b + c)];
                if (0..4).any(|at| !order.contains(&at)) {
                    continue;
                }
                let answer: Vec<String> = order.iter().map(|&at| ids[at].to_owned()).collect();
                let credit = task.mark(train, &answer).credit.to_f64();
                let mut pairs = 0_i32;
                for (place, first) in order.iter().enumerate() {
                    for second in &order[place + 1..] {
                        pairs += if first < second { 1 } else { -1 };
                    }
                }
                let expected = f64::from(pairs.max(0)) / 6.0;
                ensure!((credit - expected).abs() < 1e-12, "{order:?}: {credit}");
                (sum, count) = (sum + credit, count + 1);
            }
        }
    }
    ensure!(count == 24 && sum / 24.0 < 0.25, "{sum} of {count}");
    Ok(())
}

/// Catches a learner who takes a large ratio for a fast output and is only told to compare two ranges.
#[test]
fn an_order_that_is_just_reversed_is_told_so() -> Result<()> {
    let trains = trains()?;
    let train = trains
        .iter()
        .find(|(stem, _)| stem == "09-six-speed-front-set");
    let (_, train) = train.context("a train")?;
    let ranges = ["4", "1", "3", "2"];
    let order = |ranges: &[&str], answer: &[&str]| {
        hint(train, json!({"task": "order", "ranges": ranges}), answer)
    };
    ensure!(order(&ranges, &["4", "3", "2", "1"])? == [Hint::Reversed]);
    ensure!(order(&ranges, &["1", "2", "3", "4"])?.is_empty());
    let one = order(&ranges, &["3", "4", "2", "1"])?;
    ensure!(matches!(one[..], [Hint::Compare(..)]), "{one:?}");
    // Of two that are exchanged it says no more, and a range backwards is not the slowest for having the least ratio.
    let two = order(&["1", "2"], &["2", "1"])?;
    ensure!(matches!(two[..], [Hint::Compare(..)]), "{two:?}");
    let back = order(&["1", "R", "2"], &["R", "2", "1"])?;
    ensure!(matches!(back[..], [Hint::Compare(..)]), "{back:?}");
    Ok(())
}
