//! Vehicles on the road as SciPy finds them (`tests/oracle/traction.py`).

use anyhow::{Context, Result, ensure};
use levertrain_core::Train;
use levertrain_core::traction::{Ask, Between, End, Moment, Rule, Run, Traction};
use levertrain_tests::cases;
use serde::Deserialize;

#[derive(Deserialize)]
struct Answer {
    name: String,
    failed: bool,
    case: Option<Case>,
}

#[derive(Deserialize)]
struct Case {
    scenario: serde_json::Value,
    ask: Asked,
    ranges: Vec<RangeAnswer>,
    run: Option<RunAnswer>,
}

#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
struct Asked {
    locked_from: Option<usize>,
    engine_speed: Option<f64>,
    mesh_efficiency: f64,
    targets: Vec<f64>,
}

#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
struct EndAnswer {
    speed: f64,
    at_engine_limit: bool,
}

#[derive(Deserialize)]
struct RangeAnswer {
    id: String,
    top: Option<EndAnswer>,
    sine: Option<f64>,
    reach: f64,
    /// Speed, force, engine speed, and what is between.
    samples: Vec<(f64, f64, f64, String)>,
}

#[derive(Deserialize)]
struct RunAnswer {
    /// Speed, time, distance, from, to.
    changes: Vec<(f64, f64, f64, String, String)>,
    /// Speed, time, distance.
    targets: Vec<[f64; 3]>,
    end: EndAnswer,
}

const TOLERANCE: f64 = 1e-6;

fn close(what: &str, actual: f64, expected: f64) -> Result<()> {
    let difference = (actual - expected).abs();
    ensure!(
        difference <= TOLERANCE * actual.abs().max(expected.abs()).max(1e-3),
        "{what}: actual {actual}, expected {expected}, difference {difference:e}"
    );
    Ok(())
}

fn check(case: &Case) -> Result<Traction> {
    let train = Train::parse(&case.scenario.to_string())
        .map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    let ask = Ask {
        mesh_efficiency: case.ask.mesh_efficiency,
        locked_from: case.ask.locked_from,
        rule: case.ask.engine_speed.map_or(Rule::Force, Rule::EngineSpeed),
        targets: case.ask.targets.clone(),
    };
    let ask = ask
        .checked(&train)
        .map_err(|problem| anyhow::anyhow!("{problem}"))?;
    let found = Traction::of(&train, &ask).map_err(|missing| anyhow::anyhow!("{missing:?}"))?;
    ensure!(found.problems.is_empty(), "{:?}", found.problems);
    ensure!(
        found.pulls.len() == case.ranges.len(),
        "as many ranges pull"
    );
    let id = |range: usize| train.scenario().ranges[range].id.as_str();
    for expected in &case.ranges {
        let pull = found
            .pulls
            .iter()
            .find(|pull| id(pull.range) == expected.id);
        let pull = pull.with_context(|| format!("the range {}", expected.id))?;
        let within = |what: &str| format!("{what} of {}", expected.id);
        close(
            &within("reach"),
            pull.reach().context("a reach")?.1,
            expected.reach,
        )?;
        for (speed, force, engine, between) in &expected.samples {
            let at = pull.at(*speed).context("a force")?;
            close(&within("force"), at.force, *force)?;
            close(&within("engine speed"), at.driven.engine_speed, *engine)?;
            let named = match at.between {
                Between::Nothing => "nothing",
                Between::Slipping => "slipping",
                Between::Converter => "converter",
            };
            ensure!(
                named == between,
                "{}: {named}, {between}",
                within("between")
            );
        }
        match (pull.top(), &expected.top) {
            (None, None) => {}
            (Some(top), Some(expected)) => {
                close(&within("top"), top.at.speed, expected.speed)?;
                ensure!(
                    top.at_engine_limit == expected.at_engine_limit,
                    "{}",
                    within("limit")
                );
            }
            (top, _) => anyhow::bail!("{}: {top:?}", within("top")),
        }
        if let Some(sine) = expected.sine {
            let slope = pull.climb().context("a climb")?.slope;
            let found = if slope.is_finite() {
                slope / (1.0 + slope * slope).sqrt()
            } else {
                1.0
            };
            close(&within("climb"), found, sine.min(1.0))?;
        }
    }
    match (&found.run, &case.run) {
        (Err(_), None) => {}
        (Ok(run), Some(expected)) => check_run(run, expected, id)?,
        (run, expected) => {
            let expected = expected.is_some();
            anyhow::bail!("a run: {run:?}, expected {expected}");
        }
    }
    Ok(found)
}

fn check_run<'t>(run: &Run, expected: &RunAnswer, id: impl Fn(usize) -> &'t str) -> Result<()> {
    let moment = |what: &str, actual: &Moment, [speed, time, distance]: [f64; 3]| {
        close(&format!("speed of {what}"), actual.speed, speed)?;
        close(&format!("time of {what}"), actual.time, time)?;
        close(&format!("distance of {what}"), actual.distance, distance)
    };
    ensure!(
        run.changes.len() == expected.changes.len(),
        "{:?}",
        run.changes
    );
    for (change, (speed, time, distance, from, to)) in run.changes.iter().zip(&expected.changes) {
        let what = format!("the shift {from} to {to}");
        ensure!(
            id(change.from) == from && id(change.to) == to,
            "{what}: {change:?}"
        );
        moment(&what, &change.at, [*speed, *time, *distance])?;
    }
    for expected in &expected.targets {
        let target = run.targets.iter().find(|x| x.speed == expected[0]);
        moment("a target", target.context("a target")?, *expected)?;
    }
    let (end, at_engine_limit) = match run.end {
        End::Balance(speed) => (speed, false),
        End::EngineLimit(speed) => (speed, true),
    };
    close("the end", end, expected.end.speed)?;
    ensure!(at_engine_limit == expected.end.at_engine_limit, "the end");
    Ok(())
}

#[test]
fn scenarios_and_random_vehicles_agree() -> Result<()> {
    let Some(answers) = cases::of_file::<Answer>("traction.json")? else {
        return Ok(());
    };
    let (mut wrong, mut agreed) = (Vec::new(), Vec::new());
    for answer in &answers {
        let Some(case) = &answer.case else { continue };
        match check(case) {
            Ok(found) => agreed.push(found),
            Err(error) => wrong.push(format!("{}: {error:#}", answer.name)),
        }
    }
    let given_up = answers.iter().filter(|answer| answer.failed).count();
    eprintln!("{} agree, {given_up} given up by the oracle", agreed.len());
    ensure!(wrong.is_empty(), "{}:\n{}", wrong.len(), wrong.join("\n"));
    ensure!(agreed.len() >= 120 && given_up * 4 < agreed.len());
    // Guards the comparison: of each kind there must be some.
    let runs: Vec<&Run> = agreed
        .iter()
        .filter_map(|found| found.run.as_ref().ok())
        .collect();
    let changes = || runs.iter().flat_map(|run| &run.changes);
    let counts = [
        runs.iter()
            .filter(|run| matches!(run.end, End::Balance(_)))
            .count(),
        runs.iter()
            .filter(|run| matches!(run.end, End::EngineLimit(_)))
            .count(),
        changes().filter(|change| change.at_engine_limit).count(),
        changes().filter(|change| !change.at_engine_limit).count(),
        changes()
            .filter(|change| change.before.between == Between::Converter)
            .count(),
        runs.iter().filter(|run| run.targets.len() > 3).count(),
    ];
    ensure!(counts.iter().all(|&count| count >= 10), "{counts:?}");
    Ok(())
}
