//! Exercises: every one that the dice make can be answered, what is right is worked out a second time from the
//! public solution, and no answer is worth what it should not be.

mod marks;
mod sheets;

use anyhow::{Context, Result, anyhow, ensure};
use levertrain_core::exercise::{
    Kind, MOST_ONE_WAYS, MarkReport, Part, QuestionReport, Sheet, Task,
};
use levertrain_core::faults::{Fault, Faulty, Trial};
use levertrain_core::report::Exact;
use levertrain_core::{Duty, Fraction, PowerFlow, State, Torques, Train};
use levertrain_tests::files::scenarios;
use levertrain_tests::generate::{ANY, case, settings};
use proptest::prelude::*;
use serde_json::{Value, json};

use sheets::sheet;

const SEEDS: u64 = 8;

fn trains() -> Result<Vec<(String, Train)>> {
    let files = scenarios()?.into_iter();
    files
        .map(|file| {
            let train = Train::parse(&file.text).map_err(|problems| anyhow!("{problems:?}"))?;
            Ok((file.stem, train))
        })
        .collect()
}

/// All tasks of a train for the first seeds.
fn tasks(train: &Train) -> Vec<Task> {
    let kinds = Kind::ALL.iter().map(|(_, kind)| *kind);
    let mut tasks = Vec::new();
    for kind in kinds {
        for seed in 0..SEEDS {
            tasks.extend(Task::ask(train, kind, seed).filter(|task| !tasks.contains(task)));
        }
    }
    tasks
}

/// What there is to pick from, every subset of it where they are few.
fn answers(train: &Train, task: &Task) -> Vec<Vec<String>> {
    let question = QuestionReport::of(train, task);
    let ids: Vec<String> = question
        .choices
        .into_iter()
        .map(|choice| choice.id)
        .collect();
    match question.by {
        "one" => ids.into_iter().map(|id| vec![id]).collect(),
        "many" => {
            let few = &ids[..ids.len().min(10)];
            let subsets = 1_u32..1 << few.len();
            let picked = |bits: u32| {
                let chosen = few.iter().enumerate();
                let chosen = chosen.filter(|(at, _)| bits >> at & 1 == 1);
                chosen.map(|(_, id)| id.clone()).collect()
            };
            subsets.map(picked).collect()
        }
        "stage" => {
            let elements = train.scenario().elements.iter();
            let ids: Vec<String> = elements
                .filter(|element| !element.is_one_way())
                .map(|element| element.id().to_owned())
                .collect();
            (0_u32..1 << ids.len().min(5))
                .map(|bits| {
                    let chosen = ids.iter().enumerate();
                    let chosen = chosen.filter(|(at, _)| bits >> at & 1 == 1);
                    chosen.map(|(_, id)| id.clone()).collect()
                })
                .collect()
        }
        "order" => {
            let mut orders: Vec<Vec<String>> = vec![ids.clone()];
            orders.extend((1..ids.len()).map(|by| {
                let mut other = ids.clone();
                other.rotate_left(by);
                other
            }));
            orders.push(ids.into_iter().rev().collect());
            orders
        }
        _ => Vec::new(),
    }
}

fn state(train: &Train, ids: &[String]) -> Result<State> {
    let set = train
        .element_set(ids.iter().map(String::as_str))
        .map_err(|problems| anyhow!("{problems:?}"))?;
    Ok(train.settle(set, Duty::Drive).combination.state().clone())
}

fn elements(name: &str) -> Vec<String> {
    let ids = name.split('+').filter(|id| *id != "-");
    ids.map(str::to_owned).collect()
}

/// Whether an answer is right, from the public solution alone.
fn is_right(train: &Train, task: &Task, answer: &[String]) -> Result<bool> {
    let solved = |range: usize| train.settle(train.range(range), Duty::Drive).combination;
    let ratio = |range: usize| solved(range).state().ratio().cloned();
    Ok(match task {
        Task::Reach { ratio } => state(train, answer)?.ratio() == Some(ratio),
        Task::Members { range, set, part } => {
            let combination = solved(*range);
            let torques = Torques::of(&combination).context("torques")?;
            let flow = PowerFlow::of(&combination, &torques);
            let members = train.scenario().couplings[*set].facts().members();
            (0..members.len()).all(|member| {
                let power = flow.member(*set, member).map(Fraction::signum);
                let torque = torques.member(*set, member).map(Fraction::signum);
                let plays = match part {
                    Part::Held => power == Some(0) && torque != Some(0),
                    Part::Driving => power == Some(1),
                    Part::Driven => power == Some(-1),
                };
                let frame = members[member].shaft == "housing"
                    && members[member].teeth.is_none()
                    && members[member].role.word() == "housing";
                frame || plays == answer.contains(&member.to_string())
            })
        }
        Task::Direction { range, shaft } => {
            let speed = solved(*range).shaft_speed(*shaft);
            let way = match speed {
                None => "free",
                Some(speed) if speed > Fraction::ZERO => "forward",
                Some(speed) if speed < Fraction::ZERO => "backward",
                Some(_) => "still",
            };
            answer == [way]
        }
        Task::Neutral { applied } => {
            let question = QuestionReport::of(train, task);
            let mut all = question.choices.iter();
            all.try_fold(true, |so_far, choice| {
                let ids = elements(&choice.id);
                ensure!(ids.len() == *applied, "{ids:?}");
                let neutral = state(train, &ids)? == State::Neutral;
                Ok::<bool, anyhow::Error>(so_far && neutral == answer.contains(&choice.id))
            })?
        }
        Task::TieUp { among } => {
            let question = QuestionReport::of(train, task);
            ensure!(question.choices.len() == among.len());
            let mut all = question.choices.iter();
            all.try_fold(true, |so_far, choice| {
                let tied = state(train, &elements(&choice.id))? == State::TiedUp;
                Ok::<bool, anyhow::Error>(so_far && tied == answer.contains(&choice.id))
            })?
        }
        Task::Order { .. } => {
            let ranges = &train.scenario().ranges;
            let at = |id: &String| ranges.iter().position(|range| range.id == *id);
            let ratios: Option<Vec<Fraction>> = answer.iter().map(|id| ratio(at(id)?)).collect();
            ratios.is_some_and(|ratios| ratios.windows(2).all(|pair| pair[0] > pair[1]))
        }
        Task::Failed { .. } => {
            // Whatever fault of it would show the same is right.
            let rows = QuestionReport::of(train, task).rows;
            let wanted: Vec<_> = rows.into_iter().map(|row| (row.does, row.ratio)).collect();
            let [id] = answer else { return Ok(false) };
            let element = train.element(id).context("an element")?;
            let own = Fault::all(train).into_iter().filter(|fault| {
                fault.element() == Some(element) && !matches!(fault, Fault::Slips(_))
            });
            own.into_iter().any(|fault| {
                let faulty = Faulty::new(train, &[fault]);
                let becomes = Trial::all(train).into_iter().map(|trial| {
                    let outcome = faulty.outcome(&trial);
                    (outcome.key(), outcome.ratio().map(Exact::from))
                });
                becomes.collect::<Vec<_>>() == wanted
            })
        }
        Task::Speed { .. } | Task::Teeth { .. } => false,
    })
}

/// Catches a task that cannot be answered, a right answer that is not taken or not worth all, a wrong one that
/// is, a wrong one without a hint, and a kind that hardly any train offers.
#[test]
fn every_task_has_an_answer_and_all_others_are_worth_less() -> Result<()> {
    let (mut asked, mut judged) = (Vec::new(), 0);
    for (stem, train) in trains()? {
        for task in tasks(&train) {
            let place = || format!("{stem}: {task:?}");
            asked.push((stem.clone(), task.kind()));
            let right = task.solve(&train).with_context(place)?;
            let marked = task.mark(&train, &right);
            ensure!(marked.is_right(), "{}: {right:?} {marked:?}", place());
            for answer in answers(&train, &task) {
                let marked = task.mark(&train, &answer);
                let right = is_right(&train, &task, &answer)?;
                ensure!(
                    marked.is_right() == right,
                    "{}: {answer:?} {marked:?}",
                    place()
                );
                let within = marked.credit >= Fraction::ZERO && marked.credit <= Fraction::ONE;
                ensure!(within, "{}: {marked:?}", place());
                ensure!(right || !marked.hints.is_empty(), "{}: {answer:?}", place());
                judged += 1;
            }
            for nothing in [vec![], vec!["no such choice".to_owned()]] {
                let marked = task.mark(&train, &nothing);
                let released = matches!(task, Task::Reach { .. }) && nothing.is_empty();
                ensure!(
                    released || marked.credit.is_zero(),
                    "{}: {marked:?}",
                    place()
                );
            }
        }
    }
    for (name, kind) in Kind::ALL {
        let mut stems: Vec<_> = asked.iter().filter(|(_, known)| known == kind).collect();
        stems.dedup();
        ensure!(stems.len() >= 3, "{name} is asked of {stems:?} only");
    }
    ensure!(judged > 3_000, "only {judged} answers");
    Ok(())
}

/// Catches a question that gives away its answer: what it says may hang on the task and on names alone.
#[test]
fn questions_hold_no_answer() -> Result<()> {
    for (stem, train) in trains()? {
        for task in tasks(&train) {
            let question = serde_json::to_value(QuestionReport::of(&train, &task))?;
            let fields: Vec<&String> = question.as_object().context("an object")?.keys().collect();
            ensure!(
                fields == ["by", "choices", "given", "range", "rows", "task", "text"],
                "{fields:?}"
            );
            if let Task::Speed { .. } = task {
                let answer = task.solve(&train).context("an answer")?.concat();
                let text = question.to_string();
                ensure!(!text.contains(&answer), "{stem}: {answer} in {text}");
            }
        }
    }
    Ok(())
}

/// Catches questions about a train with more one-way clutches than they are answered for in time, and a refusal of one
/// with as many as are allowed.
#[test]
fn trains_with_too_many_one_way_clutches_are_asked_nothing() -> Result<()> {
    let sheet = sheet(&json!({"task": "neutral", "applied": 1}));
    let file = scenarios()?
        .into_iter()
        .find(|file| file.stem.starts_with("08"));
    let file = file.context("a train with a one-way clutch")?;
    let with = |count: usize| -> Result<Train> {
        let mut data: Value = serde_json::from_str(&file.text)?;
        let elements = data["elements"].as_array_mut().context("elements")?;
        let own = elements.iter().find(|element| element["kind"] == "one-way");
        let mut copy = own.context("a one-way clutch")?.clone();
        for number in 1..count {
            copy["id"] = json!(format!("x{number}"));
            elements.push(copy.clone());
        }
        Train::parse(&data.to_string()).map_err(|problems| anyhow!("{problems:?}"))
    };
    let most = with(MOST_ONE_WAYS)?;
    ensure!(Kind::offered(&most).contains(&Kind::Neutral));
    ensure!(Sheet::parse(&most, &sheet).is_ok());
    let more = with(MOST_ONE_WAYS + 1)?;
    ensure!(Kind::offered(&more).is_empty());
    let refused = Sheet::parse(&more, &sheet).err().context("taken")?;
    ensure!(refused[0].place == "elements", "{refused:?}");
    Ok(())
}

proptest! {
    #![proptest_config(settings(200))]

    /// Catches a train of any make whose tasks cannot be answered, or end the program.
    #[test]
    fn tasks_of_any_train_have_answers(case in case(ANY), seed in any::<u64>(), bits in any::<u32>()) {
        let mut sketch = case.sketch;
        let ids: Vec<String> = sketch.elements.iter().map(|element| element.id.clone()).collect();
        for (name, mask) in [("1", bits), ("2", bits >> 8), ("3", bits >> 16), ("4", bits >> 24)] {
            let chosen = ids.iter().enumerate().filter(|(at, _)| mask >> at & 1 == 1);
            let chosen: Vec<&str> = chosen.map(|(_, id)| id.as_str()).collect();
            sketch = sketch.range(name, &chosen);
        }
        let train = sketch.train();
        for (_, kind) in Kind::ALL {
            let Some(task) = Task::ask(&train, *kind, seed) else { continue };
            let right = task.solve(&train);
            prop_assert!(right.is_some(), "{task:?}");
            let marked = task.mark(&train, &right.unwrap_or_default());
            prop_assert!(marked.is_right(), "{task:?} {marked:?}");
            let question = QuestionReport::of(&train, &task);
            prop_assert!(!question.text.contains("{$"), "{}", question.text);
            for hint in MarkReport::of(&train, &task.mark(&train, &["x".to_owned()])).hints {
                prop_assert!(!hint.contains("{$") && !hint.starts_with("hint-"), "{hint}");
            }
        }
    }
}
