//! Speeds and torques against SymPy (`tests/oracle/sources.py`), which takes pinions as unknowns and finds
//! torques by virtual work.

use std::collections::BTreeMap;

use anyhow::{Result, ensure};
use levertrain_core::Fraction;
use levertrain_core::sources::{Efforts, Ports, Speeds};
use levertrain_tests::cases;
use levertrain_tests::rational::{parsed, rational};
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(rename_all = "camelCase", deny_unknown_fields)]
struct Case {
    name: String,
    scenario: serde_json::Value,
    applied: Vec<String>,
    ports: Vec<String>,
    wanted_speeds: Vec<String>,
    wanted_torques: Vec<usize>,
    freedom: usize,
    given: Vec<String>,
    speeds: BTreeMap<String, Option<Vec<String>>>,
    given_torques: Vec<usize>,
    torques: Vec<Vec<String>>,
    elements: BTreeMap<String, Option<Vec<String>>>,
}

fn check_factors(
    what: &str,
    actual: Option<&[Fraction]>,
    expected: Option<&Vec<String>>,
) -> Result<()> {
    let found: Option<Vec<_>> = actual.map(|own| own.iter().map(rational).collect());
    let wanted: Option<Vec<_>> = expected.map(|own| own.iter().map(|x| parsed(x)).collect());
    ensure!(
        found == wanted,
        "{what}: actual {actual:?}, expected {expected:?}, tolerance 0"
    );
    Ok(())
}

fn check(case: &Case) -> Result<()> {
    let train = super::parsed(&case.scenario.to_string())?;
    let (ports, problems) = Ports::of(&train);
    ensure!(problems.is_empty(), "{problems:?}");
    let ids = case.applied.iter().map(String::as_str).collect::<Vec<_>>();
    let applied = super::applied(&train, &ids)?;
    let of = |shaft: usize| train.scenario().shafts[shaft].id.as_str();
    let stand: Vec<&str> = ports.list.iter().map(|port| of(port.shaft)).collect();
    ensure!(stand == case.ports, "ports {stand:?}");

    let mut wanted = Vec::new();
    for id in &case.wanted_speeds {
        wanted.push(super::shaft(&train, id)?);
    }
    let speeds = Speeds::of(&train, applied, &wanted);
    ensure!(
        speeds.freedom() == case.freedom,
        "freedom {}",
        speeds.freedom()
    );
    let given: Vec<&str> = speeds.given().iter().map(|&shaft| of(shaft)).collect();
    ensure!(given == case.given, "given {given:?}, not {:?}", case.given);
    let tied: Vec<&str> = speeds.ties().iter().map(|tie| of(tie.shaft)).collect();
    let others: Vec<&String> = case
        .wanted_speeds
        .iter()
        .filter(|id| !case.given.contains(id))
        .collect();
    ensure!(tied == others, "tied {tied:?}, not {others:?}");
    for (index, item) in train.scenario().shafts.iter().enumerate() {
        let expected = case.speeds[&item.id].as_ref();
        check_factors(
            &format!("speed of {}", item.id),
            speeds.shaft(index),
            expected,
        )?;
        ensure!(speeds.free().any(|free| free == index) == expected.is_none());
    }
    // What decides a tied shaft are those with a factor that is not zero.
    for tie in speeds.ties() {
        let factors = case.speeds[of(tie.shaft)].as_ref();
        let by = factors.into_iter().flatten().zip(speeds.given());
        let by: Vec<usize> = by
            .filter(|(factor, _)| !factor.starts_with("0/"))
            .map(|(_, &shaft)| shaft)
            .collect();
        ensure!(tie.by == by, "{} by {:?}", of(tie.shaft), tie.by);
    }

    let efforts = Efforts::of(&train, applied, &ports, &case.wanted_torques);
    ensure!(
        efforts.given() == case.given_torques,
        "given torques {:?}",
        efforts.given()
    );
    for (port, expected) in case.torques.iter().enumerate() {
        check_factors(
            &format!("torque {port}"),
            Some(efforts.port(port)),
            Some(expected),
        )?;
    }
    for (index, element) in train.scenario().elements.iter().enumerate() {
        let expected = case.elements[element.id()].as_ref();
        let what = format!("torque of {}", element.id());
        check_factors(&what, efforts.element(index), expected)?;
    }
    Ok(())
}

#[test]
fn four_hundred_random_trains_agree() -> Result<()> {
    let Some(cases) = cases::of_file::<Case>("sources.json")? else {
        return Ok(());
    };
    let mut wrong = Vec::new();
    for case in &cases {
        if let Err(error) = check(case) {
            wrong.push(format!("{}: {error:#}", case.name));
        }
    }
    ensure!(wrong.is_empty(), "{}:\n{}", wrong.len(), wrong.join("\n"));
    // Guards the comparison: verdicts of every kind must be among them.
    let count = |kind: &dyn Fn(&Case) -> bool| cases.iter().filter(|case| kind(case)).count();
    let counts = [
        count(&|case| case.given.len() >= 2),
        count(&|case| case.given.len() < case.wanted_speeds.len()),
        count(&|case| case.speeds.values().any(Option::is_none)),
        count(&|case| case.given_torques.len() >= 2),
        count(&|case| case.ports.len() >= 4),
        count(&|case| case.elements.values().any(Option::is_none)),
    ];
    ensure!(counts.iter().all(|&count| count >= 50), "{counts:?}");
    Ok(())
}
