//! A search that was interrupted, gone on with where it stood, finds what it would have; and so does one in threads.

use levertrain_core::Train;
use levertrain_core::search::{Ask, Criterion, FindReport, Heard, ListedFind, Preparation, Search};
use serde_json::{Value, json};

use crate::everything::{ask, finds};
use crate::shards::{train, train_of};

fn asked(train: &Train) -> Ask {
    Ask {
        best: vec![Criterion::Error, Criterion::Size, Criterion::Steps],
        ..ask(train, 0.05, [20, 80], [12, 40])
    }
}

#[track_caller]
fn search(train: &Train, ask: &Ask) -> Search {
    Search::new(train, ask).unwrap_or_else(|problems| panic!("{problems:#?}"))
}

fn covered(search: &Search) -> u128 {
    let counts = search.counts();
    counts.outside + counts.beaten + counts.tried
}

/// Catches boxes that are lost or gone through twice on the way from one thread to another, and finds of one
/// thread that others do not get.
#[test]
fn threads_together_find_what_one_finds() {
    let train = train();
    let asked = asked(&train);
    let whole = finds(&train, &asked);
    for count in [1, 2, 3, 8] {
        let mut parts = search(&train, &asked).parts(count);
        let mut rounds = 0;
        while !Search::run_at_once(&mut parts, 20) {
            rounds += 1;
        }
        assert!(rounds > 3, "{count} threads: {rounds} rounds");
        let busy = parts.iter().filter(|part| part.counts().boxes > 0).count();
        assert_eq!(busy, count, "all threads have something to do");
        for part in &parts {
            assert_eq!(part.finds(), whole.finds(), "{count} threads");
        }
        let Some(joined) = Search::joined(parts) else {
            panic!("there are parts")
        };
        assert_eq!(covered(&joined), whole.candidates(), "{count} threads");
        assert_eq!(joined.finds(), whole.finds(), "{count} threads");
    }
}

/// Catches a checkpoint that leaves something out: every fifty boxes the search goes on in another one.
#[test]
fn what_is_gone_on_with_ends_as_what_was_not_interrupted() {
    let train = train();
    let asked = asked(&train);
    let whole = finds(&train, &asked);
    for threads in [1, 2] {
        let mut parts = search(&train, &asked).parts(threads);
        let mut stops = 0;
        while !Search::run_at_once(&mut parts, 50) {
            let text = Search::checkpoint(&parts);
            let mut next = search(&train, &asked);
            if let Err(problems) = next.resume(&text) {
                panic!("{problems:#?}")
            }
            assert_eq!(Search::checkpoint(&[next]), text, "it is written again");
            let mut next = search(&train, &asked);
            assert_eq!(next.resume(&text), Ok(()));
            parts = next.parts(threads);
            stops += 1;
        }
        assert!(stops > 3, "{stops} stops");
        let Some(joined) = Search::joined(parts) else {
            panic!("there are parts")
        };
        assert_eq!(covered(&joined), whole.candidates());
        assert_eq!(joined.report().finds, whole.report().finds);
    }
}

/// Catches finds that are lost where a search is closed again before all that it had found is measured anew, or told of by
/// another part and never taken in.
#[test]
fn finds_that_it_is_told_of_are_measured_in_pieces() {
    let train = train();
    let asked = asked(&train);
    let whole = finds(&train, &asked);
    let mut stopped = search(&train, &asked);
    while stopped.finds().len() < 5 {
        assert!(!stopped.run(1), "it has ended");
    }
    let count = stopped.finds().len();
    let text = Search::checkpoint(std::slice::from_ref(&stopped));
    let mut next = search(&train, &asked);
    assert_eq!(next.resume_in_pieces(&text), Ok(()));
    assert_eq!(next.finds().len(), 0);
    next.run(2);
    assert_eq!(next.finds().len(), 2, "a piece measures one");
    let mut again = search(&train, &asked);
    let stands = Search::checkpoint(std::slice::from_ref(&next));
    assert_eq!(again.resume(&stands), Ok(()));
    assert_eq!(again.finds().len(), count);
    while !next.run(100) {}
    assert_eq!(next.report().finds, whole.report().finds);

    // One that has nothing left goes on with what it is told.
    let reports = serde_json::to_string(&whole.report().finds).unwrap_or_default();
    let mut shard =
        Search::shard(&train, &asked, 0, 2).unwrap_or_else(|problems| panic!("{problems:#?}"));
    shard.hands_on();
    while !shard.run(100) {}
    let own = shard.fresh();
    for find in shard.report().finds {
        let is_handed_on = own.iter().any(|own| own.sets == find.sets);
        assert!(is_handed_on, "it is not handed on: {find:?}");
    }
    assert_eq!(shard.tell_in_pieces(&reports), Ok(()));
    while !shard.run(1) {}
    assert_eq!(shard.report().finds, whole.report().finds);
    assert_eq!(shard.fresh(), [], "what others told goes back to them");
}

/// Catches a place that holds what other parts have found, so that all of them together hold it many times; and one that has left
/// out what is nowhere else.
#[test]
fn a_place_holds_what_was_found_there_alone_and_all_places_together_everything() {
    let train = train();
    let asked = asked(&train);
    let whole = finds(&train, &asked);
    let shard = |which: usize| {
        let mut shard = Search::shard(&train, &asked, which, 2)
            .unwrap_or_else(|problems| panic!("{problems:#?}"));
        shard.hands_on();
        shard
    };
    let mut parts = [shard(0), shard(1)];
    let tell = |parts: &mut [Search; 2]| {
        for from in [0, 1] {
            let fresh = serde_json::to_string(&parts[from].fresh()).unwrap_or_default();
            assert_eq!(parts[1 - from].tell_in_pieces(&fresh), Ok(()));
        }
    };
    let mut most = 0;
    // Nothing that is told has been measured yet at some of these places, and all of it at others.
    for boxes in [3, 60, 3, 100] {
        for part in &mut parts {
            part.run(boxes);
        }
        tell(&mut parts);
        let stands = parts
            .each_ref()
            .map(|part| Search::checkpoint(std::slice::from_ref(part)));
        let mut listed: Vec<String> = Vec::new();
        for text in &stands {
            let value: Value = serde_json::from_str(text).unwrap_or_default();
            let finds = value["finds"].as_array().cloned().unwrap_or_default();
            listed.extend(finds.iter().map(ToString::to_string));
        }
        let count = listed.len();
        listed.sort_unstable();
        listed.dedup();
        assert_eq!(listed.len(), count, "something stands in both");
        most = most.max(count);
        let mut next = [shard(0), shard(1)];
        for (part, text) in next.iter_mut().zip(&stands) {
            assert_eq!(part.resume_in_pieces(text), Ok(()));
        }
        parts = next;
    }
    assert!(most > 3, "{most} finds at most");
    for _ in 0..2 {
        for part in &mut parts {
            while !part.run(100) {}
        }
        tell(&mut parts);
    }
    while !parts[0].run(100) {}
    assert_eq!(parts[0].report().finds, whole.report().finds);
}

/// Catches news of finds that leave one out, or put one in the place of another: whoever hears all news knows all finds.
#[test]
fn whoever_hears_the_news_of_finds_knows_them_all() {
    let train = train();
    let asked = asked(&train);
    let mut search = search(&train, &asked);
    let mut heard = Heard::default();
    let mut known: Vec<FindReport> = Vec::new();
    let (mut new, mut all) = (0, 0);
    loop {
        let ends = search.run(7);
        let news = search.news(&mut heard);
        all += news.len();
        let listed = news.into_iter().map(|find| match find {
            ListedFind::Before(at) => known[at].clone(),
            ListedFind::New(find) => {
                new += 1;
                find
            }
        });
        known = listed.collect();
        let finds = search.report().finds.into_iter();
        let finds: Vec<FindReport> = finds
            .map(|find| FindReport {
                ratios: Vec::new(),
                ..find
            })
            .collect();
        assert_eq!(known, finds);
        if ends {
            break;
        }
    }
    assert!(
        known.len() > 3 && new < all / 3,
        "{new} of {all} were told anew"
    );
}

/// Catches sets with hundreds of thousands of tooth counts that are listed in one piece, before which nobody can rest; and a
/// search that is set up otherwise in pieces.
#[test]
fn sets_with_most_tooth_counts_are_listed_in_many_pieces() {
    // It has a Ravigneaux set.
    let train = train_of("09-six-speed-front-set");
    let asked = ask(&train, 0.02, [18, 100], [12, 100]);
    let mut preparation =
        Preparation::new(&train, &asked).unwrap_or_else(|problems| panic!("{problems:#?}"));
    let mut pieces = 0;
    let begun = loop {
        match preparation.run() {
            Ok(Some(search)) => break search,
            Ok(None) => pieces += 1,
            Err(problems) => panic!("{problems:#?}"),
        }
    };
    assert!(pieces > 100, "{pieces} pieces");
    let at_once = search(&train, &asked);
    assert_eq!(Search::checkpoint(&[begun]), Search::checkpoint(&[at_once]));
}

#[test]
fn shards_are_gone_on_with_too_and_only_they_themselves() {
    let train = train();
    let asked = asked(&train);
    let shard = |which: usize| {
        Search::shard(&train, &asked, which, 3).unwrap_or_else(|problems| panic!("{problems:#?}"))
    };
    let mut stopped = shard(1);
    stopped.run(40);
    let text = Search::checkpoint(std::slice::from_ref(&stopped));
    let mut next = shard(1);
    assert_eq!(next.resume(&text), Ok(()));
    while !next.run(1000) {}
    while !stopped.run(1000) {}
    assert_eq!(next.report().finds, stopped.report().finds);
    assert_eq!(covered(&next), next.own_candidates());
    for other in [0, 2] {
        assert!(shard(other).resume(&text).is_err(), "shard {other}");
    }
    assert!(search(&train, &asked).resume(&text).is_err(), "the whole");
}

/// Whatever a checkpoint holds that is not one of this search is refused, and the search begins at its beginning.
#[test]
fn what_is_no_checkpoint_of_this_search_is_refused() {
    let train = train();
    let asked = asked(&train);
    let mut stopped = search(&train, &asked);
    stopped.run(40);
    let text = Search::checkpoint(std::slice::from_ref(&stopped));
    let good: Value = serde_json::from_str(&text).unwrap_or_default();
    let with = |field: &str, value: Value| {
        let mut other = good.clone();
        other[field] = value;
        other.to_string()
    };
    let mut short = good["left"].as_array().cloned().unwrap_or_default();
    short.pop();
    let bad = [
        String::new(),
        "{}".to_owned(),
        text[..text.len() / 2].to_owned(),
        with("format", json!(99)),
        with("shard", json!([1, 2])),
        with("task", json!("0000000000000000")),
        with("left", json!([[0, 0]])),
        with("left", json!([[0, 0, 99_999_999]])),
        with("left", json!(short)),
        with("tried", json!("-1")),
        with("tried", json!("340282366920938463463374607431768211455")),
        with("finds", json!([{"sets": 3}])),
    ];
    for text in bad {
        let mut other = search(&train, &asked);
        assert!(other.resume(&text).is_err(), "{text}");
        assert_eq!((covered(&other), other.finds().len()), (0, 0), "{text}");
    }
    // That of another version is called so, whatever else it holds.
    let older = with("format", json!(1));
    let problems = search(&train, &asked).resume(&older);
    let told = problems.map_err(|problems| problems[0].what.clone());
    assert!(
        told.as_ref()
            .is_err_and(|told| told.contains("another version")),
        "{told:?}"
    );
    let wider = Ask {
        wanted: ask(&train, 0.06, [20, 80], [12, 40]).wanted,
        ..asked
    };
    assert!(search(&train, &wider).resume(&text).is_err(), "another ask");
}

/// Catches a search that becomes ever slower where nearly everything is a find: it ends, and says why.
#[test]
fn too_many_finds_end_it() {
    let train = train();
    let wide = Ask {
        best: Criterion::ALL.to_vec(),
        ..ask(&train, 0.3, [20, 90], [12, 60])
    };
    let mut search = search(&train, &wide);
    while !search.run(1000) {}
    assert!(search.is_full() && search.report().full);
    let most = levertrain_core::search::limits::FINDS;
    // A box may hold some at once.
    let found = search.finds().len();
    assert!((most + 1..most + 300).contains(&found), "{found} finds");
    assert!(covered(&search) < search.candidates(), "not all is covered");
}
