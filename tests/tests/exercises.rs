//! Exercises: every one that the dice make can be answered, what is right is worked out a second time from the
//! public solution, and no answer is worth what it should not be.

use std::fs;

use anyhow::{Context, Result, anyhow, ensure};
use levertrain_core::exercise::{
    Hint, Kind, MOST_ONE_WAYS, MarkReport, Part, QuestionReport, Sheet, SheetReport, Task,
};
use levertrain_core::faults::{Fault, Faulty, Trial};
use levertrain_core::report::Exact;
use levertrain_core::{Duty, Fraction, PowerFlow, State, Torques, Train};
use levertrain_tests::files::{json_files, root, scenarios};
use levertrain_tests::generate::{ANY, case, settings};
use proptest::prelude::*;
use serde_json::{Value, json};

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
                ensure!(marked.is_right() != (marked.hints.len() == 1), "{marked:?}");
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

fn sheet(task: &Value) -> String {
    json!({"format": 1, "title": "One", "tasks": [task]}).to_string()
}

/// Catches a task that is another one once it was written and read.
#[test]
fn tasks_are_written_as_they_are_read() -> Result<()> {
    for (stem, train) in trains()? {
        for task in tasks(&train) {
            let written = serde_json::to_value(QuestionReport::of(&train, &task).task)?;
            let read = Sheet::parse(&train, &sheet(&written));
            let read = read.map_err(|problems| anyhow!("{stem}: {written} {problems:?}"))?;
            ensure!(read.tasks == [task], "{stem}: {written}");
        }
    }
    Ok(())
}

/// Catches a wrong file that is taken, one that ends the program, and problems that do not say where.
#[test]
fn a_wrong_sheet_names_what_is_wrong() -> Result<()> {
    let (_, train) = trains()?.swap_remove(3);
    let range = &train.scenario().ranges[0].id;
    let shaft = &train.scenario().shafts[1].id;
    for (task, place) in [
        (json!(3), "tasks[0]"),
        (json!({}), "tasks[0].task"),
        (json!({"task": "guess"}), "tasks[0].task"),
        (json!({"task": "reach"}), "tasks[0]"),
        (json!({"task": "reach", "ratio": "0"}), "tasks[0].ratio"),
        (json!({"task": "reach", "ratio": 3}), "tasks[0].ratio"),
        (json!({"task": "reach", "ratio": "1000/7"}), "tasks[0]"),
        (
            json!({"task": "speed", "range": "none", "shaft": shaft}),
            "tasks[0].range",
        ),
        (
            json!({"task": "speed", "range": range, "shaft": "none"}),
            "tasks[0].shaft",
        ),
        (
            json!({"task": "members", "range": range, "set": "none", "part": "held"}),
            "tasks[0].set",
        ),
        (
            json!({"task": "members", "range": range, "set": "p1", "part": "asleep"}),
            "tasks[0].part",
        ),
        (json!({"task": "neutral", "applied": 40}), "tasks[0]"),
        (
            json!({"task": "neutral", "applied": -1}),
            "tasks[0].applied",
        ),
        (
            json!({"task": "tie-up", "among": [["none"]]}),
            "applied elements",
        ),
        (json!({"task": "tie-up", "among": []}), "tasks[0]"),
        (
            json!({"task": "order", "ranges": [range, range]}),
            "tasks[0]",
        ),
        (
            json!({"task": "order", "ranges": vec![range; 13]}),
            "tasks[0].ranges",
        ),
        (
            json!({"task": "teeth", "range": range, "set": "p1", "ratio": "x"}),
            "tasks[0].ratio",
        ),
        (
            json!({"task": "speed", "range": range, "shaft": shaft, "more": 1}),
            "tasks[0].more",
        ),
    ] {
        let found = Sheet::parse(&train, &sheet(&task)).err();
        let found = found.with_context(|| format!("{task} is taken"))?;
        let said = found.iter().any(|problem| problem.place == place);
        ensure!(said, "{task}: {found:?}");
    }
    for text in [
        "",
        "[]",
        "{}",
        "{\"format\": 2, \"title\": \"x\", \"tasks\": []}",
        "{\"format\": 1}",
    ] {
        ensure!(Sheet::parse(&train, text).is_err(), "{text}");
    }
    let many = vec![json!({"task": "reach", "ratio": "1"}); 41];
    let text = json!({"format": 1, "title": "x", "tasks": many}).to_string();
    ensure!(Sheet::parse(&train, &text).is_err(), "41 tasks are taken");
    Ok(())
}

/// Catches a walk that is taken for something else, one whose ranges nobody checked, and a schema that sees it
/// otherwise than the reader.
#[test]
fn a_sheet_names_ranges_to_walk_through_first() -> Result<()> {
    let (_, train) = trains()?.swap_remove(3);
    let ids: Vec<&str> = train.scenario().ranges[..2]
        .iter()
        .map(|range| range.id.as_str())
        .collect();
    let schema: Value = serde_json::from_str(&fs::read_to_string(
        root().join("scenarios/exercises/schema.json"),
    )?)?;
    let schema = jsonschema::validator_for(&schema)?;
    let text = |walk: &Value| json!({"format": 1, "title": "x", "walk": walk, "tasks": []});
    // Back to one that was there already.
    let good = json!([ids[1], ids[0], ids[1]]);
    let read = Sheet::parse(&train, &text(&good).to_string());
    let read = read.map_err(|problems| anyhow!("{problems:?}"))?;
    ensure!(read.walk == [1, 0, 1], "{:?}", read.walk);
    ensure!(SheetReport::of(&train, &read).walk == [ids[1], ids[0], ids[1]]);
    ensure!(schema.is_valid(&text(&good)));
    let none = json!({"format": 1, "title": "x", "tasks": []});
    let read = Sheet::parse(&train, &none.to_string());
    ensure!(read.is_ok_and(|sheet| sheet.walk.is_empty()));
    ensure!(schema.is_valid(&none));
    for (walk, place, beyond_schema) in [
        (json!(["nowhere"]), "walk", true),
        (json!(vec![ids[0]; 13]), "walk", false),
        (json!(ids[0]), "walk", false),
        (json!([1]), "walk[0]", false),
        (json!(null), "walk", false),
    ] {
        let found = Sheet::parse(&train, &text(&walk).to_string()).err();
        let found = found.with_context(|| format!("{walk} is taken"))?;
        ensure!(
            found.len() == 1 && found[0].place == place,
            "{walk}: {found:?}"
        );
        ensure!(schema.is_valid(&text(&walk)) == beyond_schema, "{walk}");
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

/// Catches a sheet of ours that the train of its scenario cannot answer, or that its schema refuses.
#[test]
fn our_sheets_fit_their_scenarios() -> Result<()> {
    let folder = root().join("scenarios/exercises");
    let mut sheets = json_files(&folder)?;
    let schema = sheets
        .iter()
        .position(|file| file.stem == "schema")
        .context("a schema")?;
    let schema: Value = serde_json::from_str(&sheets.remove(schema).text)?;
    jsonschema::meta::validate(&schema).map_err(|error| anyhow!("{error}"))?;
    let schema = jsonschema::validator_for(&schema)?;
    let trains = trains()?;
    ensure!(sheets.len() >= 3, "{} sheets", sheets.len());
    let mut kinds = Vec::new();
    for file in sheets {
        let data: Value = serde_json::from_str(&file.text)?;
        let errors: Vec<String> = schema
            .iter_errors(&data)
            .map(|error| error.to_string())
            .collect();
        ensure!(errors.is_empty(), "{}: {errors:?}", file.stem);
        let stem = data["scenario"].as_str().context("a scenario")?;
        let (_, train) = trains
            .iter()
            .find(|(known, _)| known == stem)
            .context("no such")?;
        let read = Sheet::parse(train, &file.text);
        let read = read.map_err(|problems| anyhow!("{}: {problems:?}", file.stem))?;
        kinds.extend(read.tasks.iter().map(Task::kind));
        // What the schema refuses is refused, too.
        for task in data["tasks"].as_array().context("tasks")? {
            let mut spoilt = task.clone();
            spoilt["task"] = json!("guess");
            ensure!(!schema.is_valid(&serde_json::from_str(&sheet(&spoilt))?));
        }
    }
    for (name, kind) in Kind::ALL {
        ensure!(kinds.contains(kind), "no sheet asks for {name}");
    }
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
