//! What cannot be asked is refused before any time is spent, by a message that names it.

use levertrain_core::Train;
use levertrain_core::search::{Ask, Near, Search, Wanted};
use levertrain_tests::files::scenario_folder;

fn six_speed() -> Train {
    let path = scenario_folder().join("04-six-speed-three-sets.json");
    let text = std::fs::read_to_string(path).unwrap_or_default();
    match Train::parse(&text) {
        Ok(train) => train,
        Err(problems) => panic!("{problems:#?}"),
    }
}

fn wanted(range: &str, ratio: f64) -> Wanted {
    Wanted {
        range: range.to_owned(),
        ratio: Some(ratio),
        tolerance: None,
        ..Wanted::default()
    }
}

#[track_caller]
fn refuses(ask: Ask, place: &str, what: &str) {
    match Search::new(&six_speed(), &ask) {
        Ok(_) => panic!("it is not refused"),
        Err(problems) => {
            let found = problems
                .iter()
                .any(|p| p.place == place && p.what.contains(what));
            assert!(found, "{place}, {what}: {problems:#?}");
        }
    }
}

#[test]
fn what_is_asked_is_checked() {
    let usual = || Ask {
        wanted: vec![wanted("1", 4.0)],
        ..Ask::default()
    };
    refuses(Ask::default(), "wanted", "no range is named");
    refuses(
        Ask {
            wanted: vec![wanted("9", 4.0)],
            ..usual()
        },
        "wanted[0].range",
        "9",
    );
    refuses(
        Ask {
            wanted: vec![wanted("1", 4.0), wanted("1", 3.0)],
            ..usual()
        },
        "wanted[1].range",
        "named twice",
    );
    refuses(
        Ask {
            wanted: vec![wanted("1", 0.0)],
            ..usual()
        },
        "wanted[0].ratio",
        "out of range",
    );
    refuses(
        Ask {
            wanted: vec![Wanted {
                efficiency: Some(96.0),
                ..wanted("1", 2.7)
            }],
            ..usual()
        },
        "wanted[0].efficiency",
        "out of range",
    );
    refuses(
        Ask {
            teeth: [60, 20],
            ..usual()
        },
        "teeth",
        "from 60 to 20",
    );
    refuses(
        Ask {
            pinion_teeth: [1, 20],
            ..usual()
        },
        "pinion_teeth",
        "from 1 to 20",
    );
    refuses(
        Ask {
            pinions: vec![],
            ..usual()
        },
        "pinions",
        "no number of pinions",
    );
    refuses(
        Ask {
            pinions: vec![13],
            ..usual()
        },
        "pinions",
        "not allowed",
    );
    refuses(
        Ask {
            best: vec![],
            ..usual()
        },
        "best",
        "better than another",
    );
    refuses(
        Ask {
            keep: vec!["p9".to_owned()],
            ..usual()
        },
        "keep[0]",
        "p9",
    );
    refuses(
        Ask {
            keep: ["p1", "p2", "p3"].map(str::to_owned).to_vec(),
            ..usual()
        },
        "keep",
        "0 sets",
    );
    refuses(
        Ask {
            teeth: [18, 40],
            ..usual()
        },
        "teeth",
        "keep all rules",
    );
    refuses(
        Ask {
            spread: Some(Near {
                value: 0.0,
                tolerance: 0.1,
            }),
            wanted: vec![wanted("1", 4.0), wanted("2", 2.0)],
            ..usual()
        },
        "spread.value",
        "out of range",
    );
}

/// Catches bounds whose counts are tried for minutes before anything is said.
#[test]
fn bounds_that_are_too_wide_for_a_set_are_refused() {
    let path = scenario_folder().join("09-six-speed-front-set.json");
    let text = std::fs::read_to_string(path).unwrap_or_default();
    let train = match Train::parse(&text) {
        Ok(train) => train,
        Err(problems) => panic!("{problems:#?}"),
    };
    let ask = Ask {
        wanted: vec![wanted("1", 4.0)],
        teeth: [6, 300],
        pinion_teeth: [6, 300],
        ..Ask::default()
    };
    let Err(problems) = Search::new(&train, &ask) else {
        panic!("it is not refused")
    };
    assert!(
        problems[0].what.contains("too many tooth counts"),
        "{problems:#?}"
    );
}

/// What is out of reach is told with what is in reach, and that is right: a little inside there is something.
#[test]
fn a_ratio_out_of_reach_is_told_with_what_is_in_reach() {
    let train = six_speed();
    let ask = |ratio: f64| Ask {
        wanted: vec![Wanted {
            tolerance: Some(0.001),
            ..wanted("1", ratio)
        }],
        ..Ask::default()
    };
    refuses(ask(90.0), "wanted[0].ratio", "cannot have the ratio 90");
    let Err(problems) = Search::new(&train, &ask(90.0)) else {
        panic!("90 is in reach")
    };
    let most = problems[0].what.rsplit(' ').next().unwrap_or_default();
    let Ok(most) = most.parse::<f64>() else {
        panic!("no number ends {:?}", problems[0].what)
    };
    let found = |ratio: f64| {
        let mut search = match Search::new(&train, &ask(ratio)) {
            Ok(search) => search,
            Err(_) => return false,
        };
        while !search.run(1000) {}
        !search.finds().is_empty()
    };
    assert!(found(most * 0.9995), "{most} is in reach");
    assert!(!found(most * 1.002), "more is not");
}

#[test]
fn the_text_of_an_ask_is_read_strictly() {
    for (text, what) in [
        ("{", "ends too early"),
        (r#"{"wnated": []}"#, "wnated"),
        (r#"{"wanted": [{"ratio": 4}]}"#, "range"),
        (r#"{"best": ["beauty"]}"#, "beauty"),
        (r#"{"rules": "coaxial"}"#, "not a list"),
        (r#"{"teeth": [20]}"#, "not a row of 2"),
    ] {
        let Err(problems) = Ask::parse(text) else {
            panic!("{text} is read")
        };
        assert!(
            problems.iter().any(|p| p.what.contains(what)),
            "{text}: {problems:#?}"
        );
    }
    let ask = Ask {
        wanted: vec![wanted("1", 4.0)],
        spread: Some(Near {
            value: 6.0,
            tolerance: 0.05,
        }),
        same_ring: vec![vec!["p1".to_owned(), "p2".to_owned()]],
        ..Ask::default()
    };
    let text = serde_json::to_string(&ask).unwrap_or_default();
    assert_eq!(Ask::parse(&text), Ok(ask), "what is written is read again");
}

/// What excludes each other is refused with what is left, although teeth could give each of it. The six-speed has six forward
/// ranges.
#[test]
fn contradictions_are_told() {
    let free = |range: &str| Wanted {
        ratio: None,
        ..wanted(range, 1.0)
    };
    let near = |value: f64| {
        Some(Near {
            value,
            tolerance: 0.02,
        })
    };
    // Off by 2 % each, 3 over 0.6 is 4.8 to 5.2.
    let spread = Ask {
        wanted: vec![wanted("1", 3.0), wanted("6", 0.6)],
        spread: near(4.0),
        ..Ask::default()
    };
    refuses(spread.clone(), "spread", "is 4.804 to 5.204");
    // Within that it is none.
    let within = Ask {
        spread: near(4.95),
        ..spread
    };
    assert!(Search::new(&six_speed(), &within).is_ok());
    let steps = Ask {
        wanted: vec![wanted("1", 3.0), wanted("2", 2.0), wanted("3", 1.5)],
        steps: near(1.9),
        ..Ask::default()
    };
    refuses(steps, "steps", "factor of 1.900");
    // 1.6, free, 2.4: the free one would have to be below the one and above the other.
    let order = Ask {
        wanted: vec![wanted("2", 1.6), free("3"), wanted("1", 2.4)],
        ..Ask::default()
    };
    refuses(order, "wanted", "cannot have a larger one");
}

/// Rings of one size, of which one stays as it is: the others must have its size. Catches a kept ring that counts for nothing.
#[test]
fn a_ring_that_stays_is_a_ring_of_the_group() {
    let train = six_speed();
    let couplings = &train.scenario().couplings;
    let ring = |at: usize| couplings[at].clone().parts().teeth[2].1.get();
    let ids: Vec<String> = couplings
        .iter()
        .map(|set| set.facts().id().to_owned())
        .collect();
    let ask = Ask {
        wanted: vec![wanted("1", 2.7)],
        keep: vec![ids[0].clone()],
        same_ring: vec![ids[..2].to_vec()],
        ..Ask::default()
    };
    let mut search = match Search::new(&train, &ask) {
        Ok(search) => search,
        Err(problems) => panic!("{problems:#?}"),
    };
    while !search.run(1000) {}
    let finds = search.finds();
    assert!(!finds.is_empty());
    for find in &finds {
        let mut found = search.scenario(find);
        assert_eq!(found.couplings[1].parts().teeth[2].1.get(), ring(0));
    }
    let narrow = Ask {
        teeth: [18, ring(0) - 1],
        ..ask
    };
    refuses(narrow, "same_ring", "rings of one size");
}
