//! Ideal torques against virtual work, one connection at a time.
//!
//! The oracle releases each connection and reads its torque off the motion that this allows
//! (`tests/oracle/virtual_work.py`); the core solves the equilibrium of all shafts at once. The
//! settlement of one-way clutches is compared here too, as the oracle decides it by those torques.

use anyhow::{Context, Result, anyhow, ensure};
use levertrain_core::report::{EffortReport, Exact, LossReport};
use levertrain_core::{Combination, Duty, LossModel, Train};
use levertrain_tests::cases::{self, Case, Origin, Torques};
use levertrain_tests::files::scenarios;
use levertrain_tests::rational::parsed;

fn same(what: &str, actual: Option<&Exact>, expected: Option<&str>) -> Result<()> {
    ensure!(
        actual.map(|exact| parsed(&exact.fraction)) == expected.map(parsed),
        "{what}: actual {actual:?}, expected {expected:?}, tolerance 0"
    );
    Ok(())
}

fn check_torques(combination: &Combination<'_>, expected: &Torques) -> Result<()> {
    let report = EffortReport::of(combination).context("no efforts although it drives")?;
    same("output", report.output.as_ref(), Some(&expected.output))?;
    ensure!(
        report.elements.len() == expected.elements.len(),
        "elements: {report:?}"
    );
    for element in &report.elements {
        let torque = expected.elements.get(&element.id).context("an element")?;
        same(&element.id, element.torque.as_ref(), torque.as_deref())?;
    }
    ensure!(
        report.couplings.len() == expected.members.len(),
        "couplings: {report:?}"
    );
    for coupling in &report.couplings {
        let torques = expected.members.get(&coupling.id).context("a coupling")?;
        ensure!(coupling.torques.len() == torques.len(), "{}", coupling.id);
        for (index, (actual, expected)) in coupling.torques.iter().zip(torques).enumerate() {
            let what = format!("member {index} of {}", coupling.id);
            same(&what, actual.as_ref(), expected.as_deref())?;
        }
    }
    let elements = expected.elements.values();
    let all = elements.chain(expected.members.values().flatten());
    let determinate = all.into_iter().all(Option::is_some);
    ensure!(report.determinate == determinate, "determinate: {report:?}");
    Ok(())
}

/// What was compared.
#[derive(Default)]
struct Counts {
    random: usize,
    ranges: usize,
    over_applied: usize,
    locking: usize,
    overrunning: usize,
}

fn parse(case: &Case) -> Result<Train> {
    Train::parse(&case.scenario.to_string())
        .map_err(|problems| anyhow::anyhow!("{}: {problems:#?}", case.name))
}

fn check_case(case: &Case, counts: &mut Counts) -> Result<()> {
    let train = parse(case)?;
    for answer in &case.combinations {
        let applied = train
            .element_set(answer.applied.iter().map(String::as_str))
            .map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
        let combination = train.solve(applied);
        let at = || format!("applied: {}", answer.applied.join(" "));
        if let Some(torques) = &answer.torques {
            check_torques(&combination, torques).with_context(at)?;
            counts.random += usize::from(case.origin == Origin::Random);
        }
        if answer.state == "over-applied" {
            let report = EffortReport::of(&combination).with_context(at)?;
            ensure!(
                !report.determinate,
                "over-applied, yet determinate: {}",
                at()
            );
            counts.over_applied += 1;
        }
    }
    let chart = train.range_chart();
    ensure!(chart.ranges.len() == case.chart.settled.len(), "ranges");
    for (index, (entry, expected)) in chart.ranges.iter().zip(&case.chart.settled).enumerate() {
        let at = || format!("range {index}");
        let actual = (entry.verdict.key(), entry.engine_braking);
        let settled = (expected.verdict.as_str(), expected.engine_braking);
        ensure!(
            actual == settled,
            "{}: {actual:?}, expected {settled:?}",
            at()
        );
        let closed = |id: &str| expected.closed.iter().any(|closed| closed == id);
        for (element, known) in train.scenario().elements.iter().enumerate() {
            let locks = entry.combination.applied().contains(element);
            ensure!(
                locks == closed(known.id()),
                "{}: {} locks: {locks}",
                at(),
                known.id()
            );
            if known.is_one_way() && expected.torques.is_some() {
                counts.locking += usize::from(locks);
                counts.overrunning += usize::from(!locks);
            }
        }
        if let Some(torques) = &expected.torques {
            check_torques(&entry.combination, torques).with_context(at)?;
            counts.ranges += usize::from(case.origin == Origin::Scenario);
        }
    }
    Ok(())
}

#[test]
fn every_torque_agrees() -> Result<()> {
    let Some(cases) = cases::read()? else {
        return Ok(());
    };
    let mut counts = Counts::default();
    let mut wrong = Vec::new();
    for case in &cases {
        if let Err(error) = check_case(case, &mut counts) {
            wrong.push(format!("{}: {error:#}", case.name));
        }
    }
    ensure!(
        wrong.is_empty(),
        "{} of {} trains differ:\n{}",
        wrong.len(),
        cases.len(),
        wrong.join("\n")
    );
    let Counts {
        random,
        ranges,
        over_applied,
        locking,
        overrunning,
    } = counts;
    eprintln!(
        "{ranges} ranges, {random} combinations of random trains, {over_applied} over-applied, \
         {locking} one-way clutches locking, {overrunning} overrunning"
    );
    // Guards the comparison itself: each kind of answer was met often.
    ensure!(ranges >= 25 && random >= 200 && over_applied >= 100);
    ensure!(locking >= 15 && overrunning >= 100);
    Ok(())
}

/// Catches a chart whose ranges, which are solved one after the other in the same memory, differ from
/// those solved by themselves.
#[test]
fn the_chart_with_losses_is_that_of_each_range() -> Result<()> {
    let usual = LossModel::default();
    let models = [
        usual,
        LossModel {
            drag: 0.02,
            ..usual
        },
        LossModel {
            coasting: true,
            mesh_efficiency: 0.97,
            ..usual
        },
    ];
    let mut compared = 0;
    for file in scenarios()? {
        let train = Train::parse(&file.text).map_err(|problems| anyhow!("{problems:?}"))?;
        for model in &models {
            let duty = if model.coasting {
                Duty::Coast
            } else {
                Duty::Drive
            };
            for (range, told) in LossReport::chart(&train, model).into_iter().enumerate() {
                let settled = train.settle(train.range(range), duty);
                let single = LossReport::of(&settled.combination, model);
                ensure!(
                    told == single,
                    "{} {range}: {told:?}, {single:?}",
                    file.stem
                );
                compared += 1;
            }
        }
    }
    ensure!(compared > 100, "{compared}");
    Ok(())
}
