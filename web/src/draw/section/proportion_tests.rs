//! Gears as large as their teeth, in mesh, and axes as far apart as pairs of gears put them.

use levertrain_core::coupling::{Mount, Partner, Profile};

use super::circles::Circle;
use super::*;
use crate::document::session::Session;
use crate::document::settings::Settings;
use crate::draw::scene::{Bounds, Mark};
use crate::draw::tests::{session, sessions};

/// How far apart in CSS pixels two gears may be that mesh.
const MESH: f64 = 2.0;

fn profile(session: &Session, coupling: usize) -> Profile {
    session.train().scenario().couplings[coupling]
        .facts()
        .profile()
}

/// Where gears are drawn: for each coupling, each gear with its teeth.
fn drawn(session: &Session, coupling: usize) -> Vec<(f64, Circle)> {
    let stage = session.layout().stage(860.0);
    let gears = profile(session, coupling).gears.into_iter();
    gears
        .zip(stage.gears(coupling))
        .map(|(gear, &circle)| (f64::from(gear.teeth.get()), circle))
        .collect()
}

/// The box of the gear with an index in the profile.
fn face(session: &Session, coupling: usize, gear: usize) -> Bounds {
    let stage = session.layout().stage(860.0);
    let facts = session.train().scenario().couplings[coupling].facts();
    let profile = facts.profile();
    match profile.gears[gear].mount {
        Mount::Member(member) => {
            let mut parts = stage.plan().parts.iter();
            let part = parts.find(|part| (part.coupling, part.member) == (coupling, member));
            outlines::part_area(&stage, part.unwrap())
        }
        Mount::Pinion { .. } => {
            let before = profile.gears[..gear].iter();
            let nth = before.filter(|gear| matches!(gear.mount, Mount::Pinion { .. }));
            outlines::pinion_faces(&stage, coupling, facts)[nth.count()].area
        }
    }
}

#[test]
fn gears_that_mesh_touch() {
    let all = sessions();
    let meshes: usize = all
        .iter()
        .map(|(name, session)| gears_mesh(name, session))
        .sum();
    assert!(meshes > 40, "{meshes}");
}

/// Fails with gears of a train that mesh but do not touch; how many meshes there are.
#[track_caller]
fn gears_mesh(name: &str, session: &Session) -> usize {
    let mut meshes = 0;
    {
        for coupling in 0..session.train().scenario().couplings.len() {
            let gears = profile(session, coupling).gears;
            for (at, gear) in gears.iter().enumerate() {
                let Some(Partner::Meshes(partner)) = gear.partner else {
                    continue;
                };
                let [one, other] = [at, partner].map(|gear| face(session, coupling, gear));
                let (upper, lower) = if one.top < other.top {
                    (one, other)
                } else {
                    (other, one)
                };
                let gap = lower.top - (upper.top + upper.height);
                let beside = one.left < other.left + other.width - 1.0
                    && other.left < one.left + one.width - 1.0;
                // Short pinions lie before the long ones that they mesh with.
                let over = matches!(gear.mount, Mount::Pinion { .. })
                    && matches!(gears[partner].mount, Mount::Pinion { .. });
                assert!(
                    beside && if over { gap < MESH } else { gap.abs() < MESH },
                    "{name}, coupling {coupling}: gears {at} and {partner} are {gap} apart"
                );
                meshes += 1;
            }
        }
    }
    meshes
}

#[test]
fn gears_of_a_coupling_are_as_large_as_their_teeth() {
    let mut compared = 0;
    for (name, session) in sessions() {
        let couplings = session.train().scenario().couplings.iter().enumerate();
        for (coupling, kind) in couplings {
            // Pinions in series share the room between sun and ring.
            let in_series = kind.facts().kind_words().contains("two pinion rows");
            let gears = drawn(&session, coupling).into_iter();
            let pinion = profile(&session, coupling).gears.into_iter();
            let pinion = pinion.map(|gear| matches!(gear.mount, Mount::Pinion { .. }));
            let gears: Vec<(f64, Circle)> = gears
                .zip(pinion)
                .filter(|(_, pinion)| !(in_series && *pinion))
                .map(|(gear, _)| gear)
                .collect();
            let (teeth, circle) = gears[0];
            for (other_teeth, other) in &gears[1..] {
                let (by_teeth, as_drawn) = (other_teeth / teeth, other.radius / circle.radius);
                assert!(
                    (as_drawn / by_teeth - 1.0).abs() < 0.02,
                    "{name}, coupling {coupling}: {other_teeth} to {teeth} teeth as {as_drawn}"
                );
                compared += 1;
            }
        }
    }
    assert!(compared > 40, "{compared}");
}

#[test]
fn to_one_scale_all_gears_of_a_train_have_one_module() {
    let mut sizes = 0;
    for (name, mut session) in sessions() {
        session.set(Settings {
            one_module: true,
            ..Settings::default()
        });
        let mut modules: Vec<f64> = Vec::new();
        for coupling in 0..session.train().scenario().couplings.len() {
            let gears = profile(&session, coupling).gears.into_iter();
            let on_members = gears.map(|gear| matches!(gear.mount, Mount::Member(_)));
            let drawn = drawn(&session, coupling).into_iter().zip(on_members);
            let drawn = drawn.filter(|(_, on_member)| *on_member);
            modules.extend(drawn.map(|((teeth, circle), _)| 2.0 * circle.radius / teeth));
        }
        for module in &modules {
            assert!(
                (module / modules[0] - 1.0).abs() < 0.02,
                "{name}: {modules:?}"
            );
        }
        sizes += modules.len();
        gears_mesh(&name, &session);
    }
    assert!(sizes > 40, "{sizes}");
}

/// Catches a drawing that claims one scale and has none, and one that disowns the scale it has.
#[test]
fn a_drawing_that_is_not_to_one_scale_says_so() {
    let out_of_scale = |session: &mut Session, one_module| {
        session.set(Settings {
            one_module,
            ..Settings::default()
        });
        session.stage().size().out_of_scale
    };
    for (name, mut session) in sessions() {
        assert!(!out_of_scale(&mut session, true), "{name}");
    }
    // A sun that clears its shaft beside rings of which one is 100 times as large.
    let text = |ring: u32| {
        format!(
            r#"{{"format": 1, "name": "Unlike", "about": "", "input": "in", "output": "out",
            "shafts": [{{"id": "in", "label": "Input"}}, {{"id": "out", "label": "Output"}},
                       {{"id": "r", "label": "Ring"}}],
            "couplings": [{{"kind": "planetary", "id": "p", "label": "Set", "carrier": "out",
                "sun": {{"shaft": "in", "teeth": 12}}, "ring": {{"shaft": "r", "teeth": {ring}}},
                "pinion": {{"teeth": {}, "count": 3}}}}],
            "elements": [{{"kind": "brake", "id": "V", "label": "Brake", "shaft": "r"}}],
            "ranges": []}}"#,
            (ring - 12) / 2
        )
    };
    let modules = |session: &Session| {
        let [sun, ring] = [0, 2].map(|gear| drawn(session, 0)[gear]);
        (sun.1.radius / sun.0) / (ring.1.radius / ring.0)
    };
    for (ring, is_so) in [(72, false), (996, true)] {
        let mut session = Session::open(&text(ring)).unwrap();
        assert!(!out_of_scale(&mut session, false), "{ring}");
        assert_eq!(out_of_scale(&mut session, true), is_so, "{ring}");
        assert_eq!((modules(&session) - 1.0).abs() > 0.01, is_so, "{ring}");
    }
}

/// Where the input and the output of a scenario turn, above the main axis in CSS pixels.
fn axes(session: &Session) -> [f64; 2] {
    let stage = session.layout().stage(860.0);
    [Side::Input, Side::Output].map(|end| stage.axis() - stage.end(end).0.y)
}

#[test]
fn an_output_off_the_main_axis_is_drawn_off_it() {
    // Two pairs: up by half the teeth of the one, back by half those of the other.
    for (start, [first, second]) in [("06", [31 + 41, 29 + 59]), ("08", [49 + 51, 19 + 67])] {
        let session = session(start);
        let [input, output] = axes(&session);
        let [sets, pairs] = [0, 1].map(|at| drawn(&session, at));
        let module = pairs[0].1.radius * 2.0 / pairs[0].0;
        let expected = f64::from(first - second) / 2.0 * module;
        assert_eq!(input, 0.0, "{start}");
        assert!(output.abs() > 10.0, "{start}: {output}");
        assert!(
            (output - expected).abs() < 0.01,
            "{start}: {output}, not {expected}"
        );
        assert_eq!(sets[0].1.centre, 0.0, "{start}");
    }
    // A ring around a gear: its axis is half the difference of the teeth below.
    let drum = session("10");
    let [_, output] = axes(&drum);
    let pair = drawn(&drum, 1);
    let module = pair[0].1.radius * 2.0 / pair[0].0;
    assert!(
        (output + f64::from(83 - 19) / 2.0 * module).abs() < 0.01,
        "{output}"
    );
}

#[test]
fn pairs_that_lead_back_bring_the_output_back_to_the_main_axis() {
    let text = std::fs::read_to_string(concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../scenarios/06-set-and-final-pairs.json"
    ));
    let text = text.unwrap();
    let with = |[first, second]: [u32; 2]| {
        let text = text.replace("\"teeth\": 29}", &format!("\"teeth\": {first}}}"));
        let text = text.replace("\"teeth\": 59}", &format!("\"teeth\": {second}}}"));
        let [_, output] = axes(&Session::open(&text).unwrap());
        output
    };
    // 31 + 41 teeth lead up.
    assert_eq!(with([24, 48]), 0.0);
    // Profile shift makes up for one tooth.
    assert_eq!(with([24, 49]), 0.0);
    assert!(with([24, 60]) < 0.0);
    assert!(with([18, 40]) > 0.0);
}

#[test]
fn an_input_off_the_main_axis_is_drawn_off_it() {
    let text = r#"{"format": 1, "name": "Offset input", "about": "", "input": "in", "output": "c",
        "shafts": [{"id": "in", "label": "Input"}, {"id": "s", "label": "Sun"},
                   {"id": "c", "label": "Carrier"}, {"id": "r", "label": "Ring"}],
        "couplings": [
            {"kind": "gear-pair", "id": "g", "label": "Pair", "mesh": "external",
             "first": {"shaft": "in", "teeth": 30}, "second": {"shaft": "s", "teeth": 40}},
            {"kind": "planetary", "id": "p", "label": "Set", "carrier": "c",
             "sun": {"shaft": "s", "teeth": 30}, "ring": {"shaft": "r", "teeth": 70},
             "pinion": {"teeth": 20, "count": 4}}],
        "elements": [{"kind": "brake", "id": "B", "label": "Brake B", "shaft": "r"}],
        "ranges": [{"id": "1", "label": "1st", "applied": ["B"]}]}"#;
    let session = Session::open(text).unwrap();
    let [input, output] = axes(&session);
    let pair = drawn(&session, 0);
    assert!((input - pair[0].1.radius - pair[1].1.radius).abs() < 0.01);
    assert_eq!((pair[1].1.centre, output), (0.0, 0.0));
}

#[test]
fn a_width_changes_nothing_but_the_scale_along_the_axis() {
    for (name, session) in sessions() {
        let live = session.live();
        let look = |width: f64| {
            let stage = session.layout().stage(width);
            let scene = stage.scene(&live);
            let labels: Vec<(String, f64, f64)> = scene
                .labels()
                .map(|label| (label.text.clone(), label.at.x, label.at.y))
                .collect();
            labels
        };
        let narrow = look(320.0);
        for width in [390.0, 860.0, 1280.0, 1920.0, 2560.0] {
            let wide = look(width);
            assert_eq!(narrow.len(), wide.len(), "{name} at {width}");
            for (one, other) in narrow.iter().zip(&wide) {
                assert_eq!((&one.0, one.2), (&other.0, other.2), "{name} at {width}");
            }
            // What stands left of something else does so in every width, but for the arrow beside
            // the name of a gear.
            for (at, one) in narrow.iter().enumerate() {
                for (other_at, other) in narrow.iter().enumerate() {
                    let apart = wide[other_at].1 - wide[at].1;
                    assert!(
                        one.1 > other.1 - 5.1 || apart >= other.1 - one.1 - 5.1,
                        "{name} at {width}: {one:?} and {other:?} come nearer"
                    );
                }
            }
        }
    }
}

/// Trains whose axes or teeth leave little room.
#[test]
fn odd_trains_are_drawn_inside_and_finite() {
    let pair = |id: &str, mesh: &str, first: (&str, u32), second: (&str, u32)| {
        format!(
            r#"{{"kind": "gear-pair", "id": "{id}", "label": "Pair {id}", "mesh": "{mesh}",
            "first": {{"shaft": "{}", "teeth": {}}}, "second": {{"shaft": "{}", "teeth": {}}}}}"#,
            first.0, first.1, second.0, second.1
        )
    };
    let set = |sun: (&str, u32), ring: (&str, u32), carrier: &str| {
        let pinion = (ring.1 - sun.1) / 2;
        format!(
            r#"{{"kind": "planetary", "id": "p", "label": "Set", "carrier": "{carrier}",
            "sun": {{"shaft": "{}", "teeth": {}}}, "ring": {{"shaft": "{}", "teeth": {}}},
            "pinion": {{"teeth": {pinion}, "count": 1}}}}"#,
            sun.0, sun.1, ring.0, ring.1
        )
    };
    let brake = |id: &str, shaft: &str| {
        format!(r#"{{"kind": "brake", "id": "{id}", "label": "Brake {id}", "shaft": "{shaft}"}}"#)
    };
    let clutch = |id: &str, one: &str, other: &str| {
        format!(
            r#"{{"kind": "clutch", "id": "{id}", "label": "Clutch {id}",
            "between": ["{one}", "{other}"]}}"#
        )
    };
    let external = |id, first, second| pair(id, "external", first, second);
    let internal = |id, first, second| pair(id, "internal", first, second);
    let trains: Vec<(Vec<String>, Vec<String>)> = vec![
        // A layshaft with a brake, two ways back from it, and a clutch to each.
        (
            vec![
                external("a", ("in", 20), ("x", 40)),
                external("b", ("x", 30), ("y", 30)),
                external("c", ("x", 20), ("z", 45)),
            ],
            vec![
                brake("V", "x"),
                clutch("H", "y", "out"),
                clutch("J", "z", "out"),
            ],
        ),
        // Up three times, with a brake on the output.
        (
            vec![
                external("a", ("in", 6), ("x", 300)),
                external("b", ("x", 12), ("y", 14)),
                external("c", ("y", 50), ("out", 17)),
            ],
            vec![brake("V", "out")],
        ),
        // A ring about the main axis, and one about its own, held.
        (
            vec![
                internal("a", ("x", 20), ("in", 60)),
                internal("b", ("x", 20), ("out", 200)),
            ],
            vec![brake("V", "out")],
        ),
        // The least and the most teeth there may be, and a pair on the housing.
        (
            vec![
                set(("in", 6), ("x", 998), "y"),
                external("a", ("y", 999), ("out", 6)),
                external("b", ("z", 12), ("y", 12)),
            ],
            vec![brake("V", "x"), clutch("H", "z", "y")],
        ),
        (
            vec![
                set(("in", 900), ("x", 998), "y"),
                external("a", ("y", 6), ("out", 999)),
            ],
            vec![brake("V", "x")],
        ),
    ];
    let mut drawn = 0;
    for (couplings, elements) in trains {
        let text = format!(
            r#"{{"format": 1, "name": "Odd", "about": "", "input": "in", "output": "out",
            "shafts": [{{"id": "in", "label": "Input"}}, {{"id": "x", "label": "X"}},
                       {{"id": "y", "label": "Y"}}, {{"id": "z", "label": "Z"}},
                       {{"id": "out", "label": "Output"}}],
            "couplings": [{}], "elements": [{}], "ranges": []}}"#,
            couplings.join(", "),
            elements.join(", ")
        );
        let mut session = Session::open(&text).unwrap_or_else(|why| panic!("{why:?}\n{text}"));
        for one_module in [false, true] {
            session.set(Settings {
                one_module,
                ..Settings::default()
            });
            for width in [320.0, 1280.0] {
                let scene = session.layout().stage(width).scene(&session.live());
                let reach = (scene.width + 12.0, scene.height);
                for mark in &scene.marks {
                    let points = match mark {
                        Mark::Path { points, .. } | Mark::Fill { points, .. } => points.clone(),
                        Mark::Disc { centre, .. } => vec![*centre],
                        Mark::Text(label) => vec![label.at],
                    };
                    for point in points {
                        let inside = (-12.0..=reach.0).contains(&point.x)
                            && (0.0..=reach.1).contains(&point.y);
                        assert!(inside, "{mark:?} leaves {reach:?} of\n{text}");
                    }
                }
                drawn += 1;
            }
        }
    }
    assert_eq!(drawn, 20);
}
