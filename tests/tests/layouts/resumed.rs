//! A search that was interrupted goes on where it stood and ends as if it never had been; and how much of it there is, is told
//! beforehand.

use levertrain_core::layouts::{LayoutAsk, LayoutSearch, LayoutsReport, WantedRatio};

fn ask() -> LayoutAsk {
    let wanted = |ratio: f64| WantedRatio {
        ratio: Some(ratio),
        tolerance: Some(0.05),
        ..WantedRatio::default()
    };
    LayoutAsk {
        forward: [2.8, 1.55, 1.0].map(wanted).to_vec(),
        backward: Some(wanted(-2.2)),
        teeth: [20, 70],
        ..LayoutAsk::default()
    }
}

#[track_caller]
fn begun(ask: &LayoutAsk, which: usize, count: usize) -> LayoutSearch {
    LayoutSearch::shard(ask, which, count).unwrap_or_else(|problems| panic!("{problems:#?}"))
}

fn end(search: &LayoutSearch) -> LayoutsReport {
    search.report(1000)
}

/// Catches what is lost, counted twice or found otherwise at an interruption, after however many steps.
#[test]
fn interrupted_after_any_number_of_steps_it_ends_the_same() {
    let ask = ask();
    let mut whole = begun(&ask, 1, 3);
    while !whole.run(100) {}
    let expected = end(&whole);
    assert!(expected.found.len() > 10, "{}", expected.found.len());
    for steps in [1, 7, 60, 200] {
        let mut search = begun(&ask, 1, 3);
        let (mut interrupted, mut ended) = (0, false);
        while !ended {
            // One step at least goes on from where it stood: the teeth that are looked for are begun with again.
            ended = search.run(steps + interrupted % 5);
            if interrupted < 400 {
                let stands = search.checkpoint();
                search = begun(&ask, 1, 3);
                assert_eq!(search.resume(&stands), Ok(()));
                assert_eq!(search.checkpoint(), stands, "it stands elsewhere");
            }
            interrupted += 1;
        }
        assert!(interrupted > 1, "never interrupted");
        while !search.run(100) {}
        assert_eq!(end(&search), expected, "after every {steps} steps");
    }
}

/// Catches what was found before that is lost where it is closed again before all of it is measured anew.
#[test]
fn what_was_found_before_is_measured_in_pieces() {
    let ask = ask();
    let mut whole = begun(&ask, 1, 3);
    while whole.found().len() < 20 {
        assert!(!whole.run(1), "it has ended");
    }
    let stands = whole.checkpoint();
    let mut next = begun(&ask, 1, 3);
    assert_eq!(next.resume_in_pieces(&stands), Ok(()));
    next.run(3);
    assert_eq!(next.found().len(), 3, "a piece measures one");
    let mut again = begun(&ask, 1, 3);
    assert_eq!(again.resume(&next.checkpoint()), Ok(()));
    assert_eq!(again.checkpoint(), stands);
    while !whole.run(100) {}
    while !next.run(100) {}
    assert_eq!(end(&next), end(&whole));
}

#[test]
fn a_place_of_another_search_or_none_is_refused() {
    let mut search = begun(&ask(), 0, 3);
    search.run(40);
    let stands = search.checkpoint();
    let other = LayoutAsk {
        elements: 5,
        ..ask()
    };
    let rows = [
        (other, 0, 3, stands.clone()),
        (ask(), 1, 3, stands.clone()),
        (ask(), 0, 2, stands.clone()),
        (ask(), 0, 3, "{}".to_owned()),
        (
            ask(),
            0,
            3,
            stands.replacen("\"format\":1", "\"format\":2", 1),
        ),
        (
            ask(),
            0,
            3,
            stands.replacen("\"piece\":[", "\"piece\":[99,", 1),
        ),
        (
            ask(),
            0,
            3,
            stands.replacen("\"frames\":", "\"frames\":9", 1),
        ),
        (
            ask(),
            0,
            3,
            stands.replacen("\"counts\":[", "\"counts\":[0,", 1),
        ),
    ];
    for (at, (ask, which, count, text)) in rows.into_iter().enumerate() {
        let mut search = begun(&ask, which, count);
        let before = search.checkpoint();
        assert!(
            search.resume(&text).is_err(),
            "row {at} is taken: {text:.300}"
        );
        assert_eq!(search.checkpoint(), before, "row {at} changes something");
    }
}

/// Catches an estimate that counts frames, or what there is to do in one, wrongly: with a second for each piece it tells how many
/// pieces there are.
#[test]
fn how_much_there_is_to_do_is_told_about_right() {
    let ask = ask();
    let search = begun(&ask, 0, 1);
    let mut forecast = search.forecast();
    for _ in 0..20_000 {
        assert!(forecast.run());
        forecast.took(1.0);
    }
    let told = forecast.estimate();
    let mut search = search;
    let mut pieces = 0;
    while !search.run(1) {
        pieces += 1;
    }
    let frames = search.counts().frames as f64;
    assert!(
        (told.frames / frames - 1.0).abs() < 0.05,
        "{} frames, not {frames}",
        told.frames
    );
    let share = told.seconds / f64::from(pieces);
    assert!(
        (0.5..2.0).contains(&share),
        "{} pieces, not {pieces}",
        told.seconds
    );
}
