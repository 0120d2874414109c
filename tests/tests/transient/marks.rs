//! Phases, flare, tie-up and figures, by looking at many instants instead of at pieces.

use anyhow::{Context, Result, ensure};
use levertrain_core::Train;
use levertrain_core::transient::{Dynamics, JERK_TIME, Phase, Plan, Shift, Stretch};
use levertrain_tests::files;

const INSTANTS: u32 = 6000;

struct Seen {
    train: Train,
    dynamics: Dynamics,
    /// Ratios before and after.
    ratios: [f64; 2],
    shift: Shift,
}

/// A shift of the six-speed between two ranges, with its release so much later than usual.
fn six_speed([from, to]: [usize; 2], later: f64) -> Result<Seen> {
    let mut all = files::scenarios()?.into_iter();
    let file = all.find(|file| file.stem == "04-six-speed-three-sets");
    let train = Train::parse(&file.context("a scenario")?.text)
        .map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    let (dynamics, _) = Dynamics::of(&train);
    let mut plan = Plan::usual(&train, &dynamics, train.range(from), train.range(to));
    for command in &mut plan.commands {
        if plan.from.contains(command.element) {
            command.at += later;
        }
    }
    let ratio = |range| {
        let solved = train.solve(train.range(range));
        let ratio = solved.state().ratio().map(|ratio| ratio.to_f64());
        ratio.context("it drives")
    };
    let ratios = [ratio(from)?, ratio(to)?];
    let shift = Shift::of(&train, &dynamics, plan).map_err(|x| anyhow::anyhow!("{x:?}"))?;
    Ok(Seen {
        train,
        dynamics,
        ratios,
        shift,
    })
}

/// Instants from the first to the last.
fn instants(shift: &Shift) -> impl Iterator<Item = f64> {
    let until = shift.plan.until;
    (0..INSTANTS).map(move |count| until * (f64::from(count) + 0.5) / f64::from(INSTANTS))
}

fn within(stretches: &[Stretch], time: f64) -> bool {
    stretches.iter().any(|x| x.begin <= time && time <= x.end)
}

impl Seen {
    /// By how much the input is faster than either range has it.
    fn over(&self, time: f64) -> Result<f64> {
        let (piece, later) = self.shift.at(time).context("a piece")?;
        let input = piece.shaft_speed(self.train.input(), later);
        let output = piece.shaft_speed(self.train.output(), later);
        let both = self.ratios.map(|ratio| input - ratio * output);
        Ok(both[0].min(both[1]))
    }
}

/// Too early a release flares and does not bind, too late a one binds and does not flare.
#[test]
fn early_flares_and_late_binds() -> Result<()> {
    // Single swaps: one element hands over to one other.
    for ranges in [[0, 1], [2, 3], [4, 5]] {
        let (early, late) = (six_speed(ranges, -0.15)?, six_speed(ranges, 0.25)?);
        let early = &early.shift.marks;
        ensure!(
            !early.flares.is_empty() && early.flare > 5.0,
            "{ranges:?}: {early:?}"
        );
        ensure!(early.binds.is_empty(), "{ranges:?}: {early:?}");
        let late = &late.shift.marks;
        ensure!(
            !late.binds.is_empty() && late.bind > 5.0,
            "{ranges:?}: {late:?}"
        );
        ensure!(late.flares.is_empty(), "{ranges:?}: {late:?}");
    }
    Ok(())
}

#[test]
fn flares_are_where_the_input_is_faster_than_in_either_range() -> Result<()> {
    for (ranges, later) in [
        ([0, 1], -0.15),
        ([0, 1], 0.0),
        ([2, 3], -0.1),
        ([2, 1], -0.1),
        ([3, 2], 0.1),
    ] {
        let seen = six_speed(ranges, later)?;
        let (marks, mut most) = (&seen.shift.marks, 0.0_f64);
        for time in instants(&seen.shift) {
            let over = seen.over(time)?;
            most = most.max(over);
            let is_marked = within(&marks.flares, time);
            ensure!(
                is_marked == (over > 0.0) || over.abs() < 1e-3,
                "{over} at {time}: {marks:?}"
            );
        }
        ensure!(
            most <= marks.flare + 1e-6 && marks.flare <= most + 0.05,
            "{most}: {marks:?}"
        );
    }
    Ok(())
}

/// Of what is released, where its torque is against that of the start.
#[test]
fn binds_are_where_torque_has_turned_round() -> Result<()> {
    for (ranges, later) in [([0, 1], 0.25), ([1, 2], 0.2), ([2, 3], 0.3), ([4, 5], 0.1)] {
        let seen = six_speed(ranges, later)?;
        let shift = &seen.shift;
        for element in shift.plan.released().iter() {
            let of: Vec<Stretch> = shift
                .marks
                .binds
                .iter()
                .filter(|(x, _)| *x == element)
                .map(|x| x.1)
                .collect();
            let before = shift.at(0.0).context("a piece")?.0.torques[element].at;
            for time in instants(shift) {
                let (piece, later) = shift.at(time).context("a piece")?;
                let torque = piece.torques[element].after(later);
                let is_against = torque * before < 0.0;
                ensure!(
                    within(&of, time) == is_against || torque.abs() < 0.1,
                    "{torque} at {time}, {before} before: {of:?}"
                );
            }
        }
    }
    Ok(())
}

/// An upshift goes through fill, torque phase and inertia phase, one after the other, and ends in the range after.
#[test]
fn phases_follow_one_another() -> Result<()> {
    let seen = six_speed([0, 1], 0.05)?;
    let phases: Vec<Phase> = seen.shift.marks.phases.iter().map(|x| x.0).collect();
    let (before, then) = (phases.first(), phases.get(1..4));
    ensure!(before == Some(&Phase::Before), "{phases:?}");
    ensure!(
        then == Some(&[Phase::Fill, Phase::Torque, Phase::Inertia][..]),
        "{phases:?}"
    );
    ensure!(phases.last() == Some(&Phase::After), "{phases:?}");
    for (phase, stretch) in &seen.shift.marks.phases {
        let middle = (stretch.begin + stretch.end) / 2.0;
        let (piece, later) = seen.shift.at(middle).context("a piece")?;
        let input = piece.shaft_speed(seen.train.input(), later);
        let output = piece.shaft_speed(seen.train.output(), later);
        let [before, after] = seen
            .ratios
            .map(|ratio| (input - ratio * output).abs() < 1e-9 * input);
        let expected = match phase {
            Phase::Before | Phase::Fill => before,
            Phase::Torque => before || after,
            Phase::Inertia => !before && !after,
            Phase::After => after,
        };
        ensure!(expected, "{phase:?} at {middle}");
    }
    Ok(())
}

/// Least torque at the output, greatest jerk, heat and peak power, from instants.
#[test]
fn figures_agree_with_instants() -> Result<()> {
    for (ranges, later) in [([0, 1], 0.0), ([1, 2], 0.2), ([3, 2], -0.1)] {
        let seen = six_speed(ranges, later)?;
        let (shift, train) = (&seen.shift, &seen.train);
        let figures = &shift.figures;
        let mut least = f64::INFINITY;
        let mut jerk = 0.0_f64;
        let mut heat = vec![0.0; train.scenario().elements.len()];
        let mut peak = heat.clone();
        let acceleration = |time: f64| -> Result<f64> {
            let (piece, later) = shift.at(time).context("a piece")?;
            Ok(piece.shafts[train.output()].1.after(later))
        };
        for time in instants(shift) {
            let (piece, later) = shift.at(time).context("a piece")?;
            let line = piece.output_torque(train, &seen.dynamics, &shift.plan);
            least = least.min(line.after(later));
            if time + JERK_TIME < shift.plan.until {
                let change = acceleration(time + JERK_TIME)? - acceleration(time)?;
                jerk = jerk.max(change.abs() / JERK_TIME);
            }
            for element in 0..heat.len() {
                let power = piece.slip_power(element, later);
                heat[element] += power * shift.plan.until / f64::from(INSTANTS);
                peak[element] = f64::max(peak[element], power);
            }
        }
        let near = |what: &str, actual: f64, seen: f64, part: f64| -> Result<()> {
            let most = part * seen.abs().max(1.0);
            ensure!(
                (actual - seen).abs() <= most,
                "{what}: {actual}, of instants {seen}"
            );
            Ok(())
        };
        near("least torque", figures.output_least, least, 0.01)?;
        near("jerk", figures.jerk, jerk, 0.01)?;
        ensure!(figures.jerk >= jerk * (1.0 - 1e-9), "jerk");
        let [before, after] = [figures.output_before, figures.output_after];
        near(
            "drop",
            figures.drop,
            (before.min(after) - least).max(0.0),
            0.02,
        )?;
        for (element, of) in figures.elements.iter().enumerate() {
            near("heat", of.heat, heat[element], 0.01)?;
            near("peak", of.peak_power, peak[element], 0.01)?;
        }
    }
    Ok(())
}
