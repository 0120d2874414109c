//! What a walk tells of cases of their own: neutral ranges, sets that nothing decides, and what would read wrong.

use anyhow::{Context, Result, ensure};
use levertrain_core::coupling::Role;
use levertrain_core::lesson::{Claim, Walk, WalkReport};
use levertrain_core::{Duty, Fraction, Train};
use levertrain_tests::files;
use levertrain_tests::sketch::{self, Sketch};

/// One set whose neutral keeps the clutch of both its neighbours applied, with its ranges in this order.
fn with_neutral(order: [usize; 3]) -> Sketch {
    let gear = |shaft, teeth| (shaft, teeth);
    let sketch = sketch::Sketch::new("in", "out")
        .planetary("set", gear("s", 20), gear("r", 80), "out", 30)
        .clutch("H", "in", "s")
        .brake("V", "r")
        .clutch("J", "in", "r");
    let ranges: [(&str, &[&str]); 3] = [
        ("low", &["H", "V"]),
        ("neutral", &["H"]),
        ("high", &["H", "J"]),
    ];
    let ranges = order.map(|at| ranges[at]).into_iter();
    ranges.fold(sketch, |sketch, (id, applied)| sketch.range(id, applied))
}

/// What a range keeps applied of which others, and what these take more.
fn kept_in(train: &Train, range: usize) -> Vec<(usize, u32, u32)> {
    let walk = Walk::of(&train.solve(train.range(range)));
    let kept = walk.steps.iter().filter_map(|step| match &step.claim {
        Claim::Kept(kept) => Some((kept.range, kept.elements.bits(), kept.rest.bits())),
        _ => None,
    });
    kept.collect()
}

#[test]
fn a_neutral_range_keeps_what_its_neighbours_need() {
    let train = with_neutral([0, 1, 2]).train();
    assert_eq!(kept_in(&train, 1), [(0, 0b001, 0b010), (2, 0b001, 0b100)]);
}

/// Catches a neutral range at an end of the list that is seen beside one range only.
#[test]
fn neutral_is_between_the_last_range_and_the_first() {
    let last = with_neutral([0, 2, 1]).train();
    assert_eq!(kept_in(&last, 2), [(1, 0b001, 0b100), (0, 0b001, 0b010)]);
    let first = with_neutral([1, 0, 2]).train();
    assert_eq!(kept_in(&first, 0), [(2, 0b001, 0b100), (1, 0b001, 0b010)]);
}

/// Willis' equation, solved for the carrier (Willis, Principles of Mechanism, 1841; from memory): each turn of it is
/// made of those of sun and ring by their teeth. The solver says the same where both are given.
#[test]
fn a_set_that_nothing_decides_tells_how_its_speeds_hang_together() -> Result<()> {
    let (mut told, mut held) = (0, 0);
    for file in files::scenarios()? {
        let train = Train::parse(&file.text).map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
        for range in 0..train.scenario().ranges.len() {
            let applied = train.range(range);
            let walk = Walk::of(&train.solve(applied));
            for step in &walk.steps {
                let Claim::Tie(tie) = &step.claim else {
                    continue;
                };
                let facts = train.scenario().couplings[tie.set].facts();
                let members = facts.members();
                let sum = tie.of.iter().fold(Fraction::ZERO, |sum, (_, of)| &sum + of);
                let bodies = train.members(tie.set);
                let solved = train.solve(applied);
                let stands = |at: &usize| solved.body_speed(bodies[*at]) == Some(Fraction::ZERO);
                ensure!(tie.still == (0..bodies.len()).find(stands), "{}", file.stem);
                ensure!(
                    (sum == Fraction::ONE) == tie.still.is_none(),
                    "{}: all turn alike",
                    file.stem
                );
                held += usize::from(tie.still.is_some());
                for (member, share) in &tie.of {
                    let teeth =
                        |at: usize| members[at].teeth.map_or(0, |teeth| i64::from(teeth.get()));
                    let expected = match members[tie.member].role {
                        Role::Carrier => {
                            let all: i64 = (0..members.len()).map(teeth).sum();
                            Fraction::new(teeth(*member), all)
                        }
                        // With the carrier at rest speeds go as the teeth, the other way round.
                        _ if tie.still.is_some() => {
                            Fraction::new(-teeth(*member), teeth(tie.member))
                        }
                        _ => continue,
                    };
                    let expected = expected.context("teeth")?;
                    ensure!(*share == expected, "{}: {share:?}", file.stem);
                }
                told += 1;
            }
            // What is left to apply for another range is of trains that one speed decides.
            let kept = walk
                .steps
                .iter()
                .any(|step| matches!(step.claim, Claim::Kept(_)));
            ensure!(!kept || !train.scenario().is_branched(), "{}", file.stem);
        }
    }
    ensure!(told >= 6 && held >= 2, "{told}, {held}");
    Ok(())
}

/// What reads wrong to a learner: power that goes round where no gear rolls, a speed of 1 time another, a set at rest of which
/// only its power is told, a member that stands still in a sum of speeds.
#[test]
fn what_is_a_case_of_its_own_is_told_in_its_own_words() -> Result<()> {
    for (stem, range, said, left) in [
        (
            "04-six-speed-three-sets",
            "4",
            "where no gear rolls",
            "inside the train",
        ),
        (
            "04-six-speed-three-sets",
            "3",
            "inside the train",
            "where no gear rolls",
        ),
        (
            "04-six-speed-three-sets",
            "5",
            "while it turns, as fast as the input",
            "at 1 times",
        ),
        (
            "05-eight-speed-four-sets",
            "2",
            "Set 1 stands still as a whole",
            "Set 1 passes on",
        ),
        (
            "05-eight-speed-four-sets",
            "2",
            "The input always turns the sun of Set 4.",
            "at 1 times",
        ),
        (
            "14-input-split",
            "direct",
            "where no gear rolls",
            "inside the train",
        ),
        (
            "10-stepped-two-speed",
            "low",
            "forward at 0.0318 times the input",
            "0.032",
        ),
        (
            "14-input-split",
            "direct",
            "of all sources only the input",
            "inside the train",
        ),
        (
            "15-two-mode-split",
            "first",
            "The ring stands still and is left out.",
            "speed of the ring",
        ),
    ] {
        let file = files::scenarios()?
            .into_iter()
            .find(|file| file.stem == stem);
        let train = Train::parse(&file.context("a file")?.text)
            .map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
        let ranges = &train.scenario().ranges;
        let at = ranges.iter().position(|known| known.id == range);
        let at = at.with_context(|| format!("{stem} has no {range}"))?;
        let settled = train.settle(train.range(at), Duty::Drive);
        let steps = WalkReport::of(&settled.combination).steps;
        let words = steps.iter().flat_map(|step| step.sentences.clone());
        // Of the sum of the set that is told of only.
        let words: Vec<String> = words
            .filter(|words| !words.contains("Set 1 ties"))
            .collect();
        let words = words.join(" ");
        ensure!(
            words.contains(said),
            "{stem} {range}: {said:?} is not in {words}"
        );
        ensure!(
            !words.contains(left),
            "{stem} {range}: {left:?} is in {words}"
        );
    }
    Ok(())
}
