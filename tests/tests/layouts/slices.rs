//! A search for layouts is gone through in small pieces, so that whoever is told to rest soon does.

use levertrain_core::layouts::{LayoutAsk, LayoutPreparation, LayoutSearch, WantedRatio};

/// As many members and elements as there may be, four applied: finding what the first frame can be takes a minute.
fn largest() -> LayoutAsk {
    let wanted = |ratio: f64| WantedRatio {
        ratio: Some(ratio),
        tolerance: Some(0.05),
        ..WantedRatio::default()
    };
    LayoutAsk {
        sets: ["ravigneaux", "ravigneaux", "planetary", "planetary"]
            .map(str::to_owned)
            .to_vec(),
        applied: 4,
        elements: 6,
        forward: [4.0, 2.5, 1.6, 1.0].map(wanted).to_vec(),
        ..LayoutAsk::default()
    }
}

/// Catches a frame that is opened in one piece, which no pause could interrupt. Of its choices of four pairs a piece has a few
/// hundred, of the hundred thousands that there are.
#[test]
fn a_frame_of_the_largest_class_is_opened_in_many_pieces() {
    let search = LayoutSearch::new(&largest());
    let mut search = search.unwrap_or_else(|problems| panic!("{problems:#?}"));
    for _ in 0..60 {
        assert!(!search.run(1), "it ends");
    }
    let counts = search.counts();
    assert_eq!(
        counts.frames, counts.crossing,
        "a frame is opened: {counts:?}"
    );
}

/// Catches a place to go on from in the middle of a frame that is another one than that before the frame.
#[test]
fn a_frame_that_is_being_opened_is_begun_with_again() {
    let search =
        || LayoutSearch::new(&largest()).unwrap_or_else(|problems| panic!("{problems:#?}"));
    let mut stopped = search();
    stopped.run(60);
    let stands = stopped.checkpoint();
    let mut next = search();
    assert_eq!(next.resume(&stands), Ok(()));
    assert_eq!(next.checkpoint(), stands);
    assert!(stands.contains("\"choices\":0"), "{stands:.300}");
}

/// Catches sets with hundreds of thousands of tooth counts that are listed in one piece, before which nobody can rest; and one
/// that is set up otherwise in pieces.
#[test]
fn sets_with_most_tooth_counts_are_listed_in_many_pieces() {
    let ask = largest();
    let preparation = LayoutPreparation::shard(&ask, 0, 1);
    let mut preparation = preparation.unwrap_or_else(|problems| panic!("{problems:#?}"));
    let mut pieces = 0;
    let search = loop {
        match preparation.run() {
            Ok(Some(search)) => break search,
            Ok(None) => pieces += 1,
            Err(problems) => panic!("{problems:#?}"),
        }
    };
    assert!(pieces > 100, "{pieces} pieces");
    let at_once = LayoutSearch::new(&ask).unwrap_or_else(|problems| panic!("{problems:#?}"));
    assert_eq!(search.checkpoint(), at_once.checkpoint());
}
