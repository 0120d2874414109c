//! What faults make of two scenarios, as worked out by hand.

use levertrain_core::Train;
use levertrain_core::faults::{BecomesReport, Fault, Faulty, Outcome, Search, Trial};
use levertrain_tests::files::scenarios;

/// Checks what a fault makes of every range in order, each as one word of the wire format.
#[track_caller]
fn check(train: &Train, faults: &[Fault], expected: &[&str]) {
    let faulty = Faulty::new(train, faults);
    let trials = Trial::all(train);
    let outcomes: Vec<Outcome> = trials.iter().map(|trial| faulty.outcome(trial)).collect();
    let found: Vec<&str> = outcomes.iter().map(Outcome::key).collect();
    assert_eq!(found, expected, "{faults:?}");
}

fn scenario(name: &str) -> Train {
    let files = scenarios().unwrap_or_else(|error| panic!("{error:#}"));
    let Some(file) = files.into_iter().find(|file| file.stem == name) else {
        panic!("there is no {name}")
    };
    Train::parse(&file.text).unwrap_or_else(|problems| panic!("{problems:?}"))
}

#[track_caller]
fn element(train: &Train, id: &str) -> usize {
    let element = train.element(id);
    element.unwrap_or_else(|| panic!("there is no {id}"))
}

/// 1st V H, 2nd W H, 3rd H J, Reverse V J, then all released. H drives ring 1, J the common sun, V holds
/// carrier 2, W the sun; carrier 1 and ring 2 deliver.
#[test]
fn the_three_speed_is_what_it_is_by_hand() {
    let train = scenario("02-three-speed-common-sun");
    let [v, w, h, j] = ["V", "W", "H", "J"].map(|id| element(&train, id));
    check(&train, &[], &["right"; 5]);
    let rows: [(Fault, [&str; 5]); 8] = [
        (
            Fault::WillNotApply(v),
            ["lost", "right", "right", "lost", "right"],
        ),
        (
            Fault::WillNotApply(h),
            ["lost", "lost", "lost", "right", "right"],
        ),
        (
            Fault::WillNotRelease(v),
            ["right", "ties-up", "ties-up", "right", "right"],
        ),
        // With H and W the input turns in 2nd; W stops the sun that J would drive.
        (
            Fault::WillNotRelease(w),
            ["ties-up", "right", "ties-up", "ties-up", "right"],
        ),
        // Closed by itself H lets the input turn ring 1 only.
        (
            Fault::WillNotRelease(h),
            ["right", "right", "right", "ties-up", "right"],
        ),
        (
            Fault::WillNotRelease(j),
            ["ties-up", "ties-up", "right", "right", "right"],
        ),
        (
            Fault::Slips(j),
            ["right", "right", "slips", "slips", "right"],
        ),
        (
            Fault::Slips(w),
            ["right", "slips", "right", "right", "right"],
        ),
    ];
    for (fault, expected) in rows {
        check(&train, &[fault], &expected);
    }
    // Whichever member of set 1 is cut off, the set passes nothing on; only reverse does without it.
    for member in 0..3 {
        let expected = ["lost", "lost", "lost", "right", "right"];
        check(&train, &[Fault::BrokenSpline(0, member)], &expected);
    }
    // V in the place of W: 2nd becomes 1st.
    let both = [Fault::WillNotApply(w), Fault::WillNotRelease(v)];
    let expected = ["right", "drives", "ties-up", "right", "right"];
    check(&train, &both, &expected);
    let trials = Trial::all(&train);
    let second = Faulty::new(&train, &both).outcome(&trials[1]);
    let first = train.solve(train.range(0));
    assert_eq!(second.ratio(), first.state().ratio());
}

/// 1st H, 1st with V: V H, 2nd W H, 3rd H J, Reverse V J: Q locks carrier 2 against turning backward.
#[test]
fn the_one_way_clutch_is_what_it_is_by_hand() {
    let train = scenario("07-three-speed-one-way");
    let [v, q, w] = ["V", "Q", "W"].map(|id| element(&train, id));
    check(&train, &[], &["right"; 6]);
    let rows: [(Fault, [&str; 6]); 5] = [
        (
            Fault::DoesNotHold(q),
            ["lost", "right", "right", "right", "right", "right"],
        ),
        (
            Fault::StaysLocked(q),
            [
                "engine-braking",
                "right",
                "ties-up",
                "ties-up",
                "right",
                "right",
            ],
        ),
        (
            Fault::WillNotApply(v),
            [
                "right",
                "no-engine-braking",
                "right",
                "right",
                "lost",
                "right",
            ],
        ),
        // Q holds what V lets slip, as long as the input drives.
        (
            Fault::Slips(v),
            [
                "right",
                "no-engine-braking",
                "right",
                "right",
                "slips",
                "right",
            ],
        ),
        // Without W the sun is free, and Q holds carrier 2 as in 1st.
        (
            Fault::WillNotApply(w),
            ["right", "right", "drives", "right", "right", "right"],
        ),
    ];
    for (fault, expected) in rows {
        check(&train, &[fault], &expected);
    }
}

/// With set 2 cut off nothing turns its carrier: it is free to turn as Q lets it, and W makes 1st 2nd.
#[test]
fn a_one_way_clutch_on_what_is_free_decides_nothing() {
    let train = scenario("07-three-speed-one-way");
    let faults = [
        Fault::WillNotRelease(element(&train, "W")),
        Fault::BrokenSpline(1, 1),
    ];
    let expected = ["drives", "drives", "right", "ties-up", "ties-up", "right"];
    check(&train, &faults, &expected);
}

#[test]
fn what_makes_no_difference_is_not_offered() {
    let train = scenario("01-one-set");
    let splines = |train: &Train| {
        let faults = Fault::all(train).into_iter();
        faults
            .filter(|fault| matches!(fault, Fault::BrokenSpline(..)))
            .count()
    };
    assert_eq!(splines(&train), 3, "each member has clutches on its shaft");
    // A pair's frame is the housing, and no member that turns.
    let pairs = scenario("06-set-and-final-pairs");
    let gears = Fault::all(&pairs);
    assert!(gears.contains(&Fault::BrokenSpline(1, 0)));
    assert!(!gears.contains(&Fault::BrokenSpline(1, 1)), "{gears:?}");
}

#[test]
fn it_is_told_which_range_one_behaves_as_and_why() {
    let train = scenario("07-three-speed-one-way");
    let search = Search::new(&train);
    let told = |fault| BecomesReport::all(&search, &[fault]);
    let second = &told(Fault::WillNotApply(element(&train, "W")))[2];
    assert_eq!(second.outcome, "drives");
    assert_eq!(second.like.as_deref(), Some("1st"));
    let q = element(&train, "Q");
    let first = &told(Fault::DoesNotHold(q))[0];
    assert_eq!((first.outcome, &first.like), ("lost", &None));
    let why = first.why.join(" ");
    assert!(why.contains("Carrier 2"), "{why}");
    let tied = &told(Fault::StaysLocked(q))[2];
    let why = tied.why.join(" ");
    assert!(why.contains("One-way Q"), "{why}");
    assert!(
        told(Fault::StaysLocked(q))[0].why.is_empty(),
        "it drives as it should"
    );
    let cut = &told(Fault::BrokenSpline(1, 2))[0];
    let why = cut.why.join(" ");
    assert!(why.contains("the cut-off ring of Set 2"), "{why}");
}
