//! Worked examples from textbooks and lecture sheets.

use levertrain_core::{Combination, Fraction, Train};
use levertrain_tests::check::{Source, Status, check, exact, published, speed};
use levertrain_tests::sketch::Sketch;

/// Speed of a set's only pinion about its own pin, for an input speed.
fn spin(combination: &Combination<'_>, coupling: usize, input_speed: i64) -> Option<Fraction> {
    let facts = combination.train().scenario().couplings[coupling].facts();
    let pinion = facts.pinions().into_iter().next()?;
    let per_turn = combination.pinion_spin(coupling, &pinion)?;
    Some(&per_turn * &Fraction::from(input_speed))
}

fn released(train: &Train) -> Combination<'_> {
    train.solve(Default::default())
}

fn plus(a: Option<Fraction>, b: Option<Fraction>) -> Option<Fraction> {
    Some(&a? + &b?)
}

/// The frequency of a mesh in hertz: teeth times turns a second against the carrier.
fn mesh_hertz(teeth: i64, relative_rev_min: Option<Fraction>) -> Option<Fraction> {
    let passing = &relative_rev_min? * &Fraction::from(teeth);
    let hertz = passing.over(&Fraction::from(60))?;
    Some(if hertz.signum() < 0 { -&hertz } else { hertz })
}

#[test]
fn shigley_sun_20_pinion_30_ring_80() {
    let train = Sketch::new("sun", "arm")
        .planetary("set", ("sun", 20), ("housing", 80), "arm", 30)
        .train();
    let driven = released(&train);
    let arm = speed(&driven, "arm", 100);
    check(
        "sun at 100 rev/min, ring held",
        Source {
            what: "Shigley, Mechanical Engineering Design, planetary train example",
            status: Status::FromMemory,
        },
        &[exact("arm, rev/min", arm.clone(), "20")],
    );

    let about_pin = spin(&driven, 0, 100);
    let sun_to_arm = plus(speed(&driven, "sun", 100), arm.clone().map(|arm| -&arm));
    check(
        "the same: planet and meshes",
        Source {
            what: "wp - wc = -(S/P)(ws - wc) = (R/P)(wr - wc); mesh frequency S |ns - nc| = R |nr - nc|",
            status: Status::Derived,
        },
        &[
            exact("planet to arm, rev/min", about_pin.clone(), "-160/3"),
            exact(
                "planet, rev/min",
                plus(about_pin.clone(), arm.clone()),
                "-100/3",
            ),
            exact("sun mesh, Hz", mesh_hertz(20, sun_to_arm), "80/3"),
            exact("planet's own, Hz", mesh_hertz(30, about_pin), "80/3"),
            published("ring mesh, Hz", mesh_hertz(80, arm), "26.667"),
        ],
    );
}

#[test]
fn internal_gear_72_fixed_arm_at_18() {
    let train = Sketch::new("arm", "C")
        .planetary("set", ("C", 32), ("housing", 72), "arm", 20)
        .train();
    let driven = released(&train);
    let b = plus(spin(&driven, 0, 18), speed(&driven, "arm", 18));
    check(
        "arm 18 rev/min anticlockwise, A (72, internal) fixed",
        Source {
            what: "studylib 26184123, problem 1",
            status: Status::Read,
        },
        &[
            published("C (32), anticlockwise", speed(&driven, "C", 18), "58.5"),
            published("B (20), clockwise is negative", b.clone(), "-46.8"),
            exact("C exactly", speed(&driven, "C", 18), "117/2"),
            exact("B exactly", b, "-234/5"),
        ],
    );
}

#[test]
fn sun_23_fixed_carrier_at_100() {
    let train = Sketch::new("carrier", "ring")
        .planetary("set", ("housing", 23), ("ring", 55), "carrier", 16)
        .train();
    check(
        "carrier 100 rev/min, sun (23) fixed",
        Source {
            what: "homeworksource 1031202",
            status: Status::Read,
        },
        &[published(
            "ring (55), rev/min",
            speed(&released(&train), "ring", 100),
            "141.8",
        )],
    );
}

#[test]
fn norton_two_inputs() {
    let source = Source {
        what: "Norton, Design of Machinery, example 9-5",
        status: Status::FromMemory,
    };
    // Two inputs are one when a pair of gears ties them: 20 w(arm) = 40 w(sun).
    let tied = Sketch::new("arm", "ring")
        .planetary("set", ("sun", 40), ("ring", 80), "arm", 20)
        .pair("tie", true, ("arm", 20), ("sun", 40))
        .train();
    let tied = released(&tied);
    check(
        "arm 200 rev/min, sun 100 rev/min, tied by gears",
        source,
        &[
            exact("sun, rev/min", speed(&tied, "sun", 200), "100"),
            exact("ring, rev/min", speed(&tied, "ring", 200), "250"),
        ],
    );

    // Or they are two motions that add up.
    let by_arm = Sketch::new("arm", "ring")
        .planetary("set", ("housing", 40), ("ring", 80), "arm", 20)
        .train();
    let by_sun = Sketch::new("sun", "ring")
        .planetary("set", ("sun", 40), ("ring", 80), "housing", 20)
        .train();
    let sum = plus(
        speed(&released(&by_arm), "ring", 200),
        speed(&released(&by_sun), "ring", 100),
    );
    check(
        "the same as a sum of two motions",
        source,
        &[exact("ring, rev/min", sum, "250")],
    );
}

#[test]
fn fergusons_paradox() {
    // One broad planet of 20 teeth meshes with suns of 100 (fixed), 99 and 101. What the planet
    // does is the same for all three, so it is written as a ring that all three sets share.
    let train = Sketch::new("arm", "sun99")
        .planetary("set100", ("housing", 100), ("ring", 140), "arm", 20)
        .planetary("set99", ("sun99", 99), ("ring", 140), "arm", 20)
        .planetary("set101", ("sun101", 101), ("ring", 140), "arm", 20)
        .train();
    let driven = released(&train);
    check(
        "Ferguson's paradox, arm 100 rev/min",
        Source {
            what: "Norton, Design of Machinery, example 9-6 (inputs also in transtutors 13366832)",
            status: Status::FromMemory,
        },
        &[
            published("sun 99, rev/min", speed(&driven, "sun99", 100), "-1.01"),
            published("sun 101, rev/min", speed(&driven, "sun101", 100), "0.99"),
            exact("sun 99 exactly", speed(&driven, "sun99", 100), "-100/99"),
            exact("sun 101 exactly", speed(&driven, "sun101", 100), "100/101"),
        ],
    );
}

#[test]
fn coupled_pair_of_sets() {
    let train = Sketch::new("s1", "out")
        .planetary("first", ("s1", 24), ("i1", 66), "out", 21)
        .planetary("second", ("i1", 26), ("housing", 60), "out", 17)
        .train();
    let driven = released(&train);
    check(
        "two sets, I1 = S2, common carrier, I2 fixed, S1 at 1500 rev/min",
        Source {
            what: "coursehero 6011877",
            status: Status::InputsRead,
        },
        &[
            exact("output, rev/min", speed(&driven, "out", 1500), "-39000/139"),
            published("output, rev/min", speed(&driven, "out", 1500), "-280.58"),
        ],
    );
}
