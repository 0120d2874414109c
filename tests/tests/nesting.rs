//! Whether shafts can be nested round one axis, against NetworkX.
//!
//! The oracle (`tests/oracle/nesting.py`) looks at another graph, with a place for every side of
//! every set, and tries every way to divide what hangs on a carrier into its two sides.

use std::task::Poll;

use anyhow::{Result, bail, ensure};
use levertrain_core::{Body, Embedding, Joint, Nesting, Train, vertices};
use levertrain_tests::cases;
use levertrain_web::draw::section::{Layout, draw_nested};
use serde::Deserialize;
use serde_json::Value;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    name: String,
    scenario: Value,
    nests: bool,
}

#[test]
fn what_can_be_nested_is_what_networkx_finds_planar() -> Result<()> {
    let Some(cases) = cases::of_file::<Case>("nesting.json")? else {
        return Ok(());
    };
    let mut counts = [0; 2];
    for case in &cases {
        let train = Train::parse(&case.scenario.to_string())
            .map_err(|faults| anyhow::anyhow!("{}: {faults:#?}", case.name))?;
        let expected = if case.nests {
            Nesting::Nests
        } else {
            Nesting::Crosses
        };
        let actual = train.nesting();
        ensure!(
            actual == expected,
            "{}: actual {actual:?}, expected {expected:?}",
            case.name
        );
        counts[usize::from(case.nests)] += 1;
    }
    ensure!(
        counts.iter().all(|&count| count >= 80),
        "too few of a kind to compare: {counts:?}"
    );
    Ok(())
}

#[test]
fn embeddings_are_drawings_without_crossings() -> Result<()> {
    let Some(cases) = cases::of_file::<Case>("nesting.json")? else {
        return Ok(());
    };
    let mut found = 0;
    for case in cases.iter().filter(|case| case.nests) {
        let train = train(case)?;
        // Another one of several ways each time.
        for turn in 0..4 {
            let mut choice = turn;
            let embedding = train.embedding(&mut |count| {
                choice += 1;
                choice % count.max(1)
            });
            let Some(embedding) = embedding else {
                bail!("{}: nothing is found", case.name);
            };
            found += 1;
            ensure!(euler(&embedding), "{}: it has holes or crosses", case.name);
            ensure!(
                has_rim_in_order(&embedding),
                "{}: {:?}",
                case.name,
                embedding.around[vertices::HOUSING]
            );
            ensure!(suns_lie_together(&embedding), "{}: apart", case.name);
        }
    }
    ensure!(found >= 900, "too few to tell: {found}");
    Ok(())
}

#[test]
fn what_nests_is_drawn_without_crossings() -> Result<()> {
    // Every so many, and all with a brake within a carrier: to lay them all out takes minutes.
    const EVERY: usize = 5;
    let Some(cases) = cases::of_file::<Case>("nesting.json")? else {
        return Ok(());
    };
    draw_nested();
    let nesting = cases.iter().filter(|case| case.nests);
    let (mut drawn, mut within) = (0, 0);
    for (index, case) in nesting.enumerate() {
        let train = train(case)?;
        let has_within = has_brake_within(&train);
        if !has_within && !index.is_multiple_of(EVERY) {
            continue;
        }
        let crossings = bettered(&train).crossings();
        ensure!(crossings == 0, "{}: {crossings} crossings", case.name);
        drawn += 1;
        within += usize::from(has_within);
    }
    ensure!(
        drawn >= 40 && within >= 1,
        "too few to tell: {drawn}, {within}"
    );
    Ok(())
}

/// Whether a brake must hang within a carrier that is part of the housing.
fn has_brake_within(train: &Train) -> bool {
    let embedding = train.embedding(&mut |_| 0);
    let mut joints = embedding.into_iter().flat_map(|embedding| embedding.joints);
    joints.any(|(joint, ends)| match joint {
        Joint::Element(element) => {
            train.ends(element).contains(&Body::Housing) && !ends.contains(&vertices::HOUSING)
        }
        _ => false,
    })
}

/// A train laid out, and what may better that done as well.
fn bettered(train: &Train) -> Layout {
    let layout = Layout::of(train);
    let Some(mut mending) = layout.mending() else {
        return layout;
    };
    loop {
        if let Poll::Ready(better) = layout.mended(&mut mending) {
            return better.unwrap_or(layout);
        }
    }
}

fn train(case: &Case) -> Result<Train> {
    Train::parse(&case.scenario.to_string())
        .map_err(|problems| anyhow::anyhow!("{}: {problems:#?}", case.name))
}

/// Whether vertices less edges and faces make two (Euler, 1758; common knowledge of graphs): then the order around
/// the vertices is that of a drawing on a sphere without crossings.
fn euler(embedding: &Embedding) -> bool {
    let around = &embedding.around;
    let vertices = around.iter().filter(|around| !around.is_empty()).count();
    let ends: usize = around.iter().map(Vec::len).sum();
    // Each end of a joint belongs to one face: it goes on at the other end, with the next joint there.
    let mut seen = std::collections::BTreeSet::new();
    let mut faces = 0;
    for (vertex, joints) in around.iter().enumerate() {
        for &joint in joints {
            let (mut vertex, mut joint) = (vertex, joint);
            if !seen.insert((vertex, joint)) {
                continue;
            }
            faces += 1;
            loop {
                let [a, b] = embedding.joints[joint].1;
                vertex = a + b - vertex;
                let here = &around[vertex];
                let Some(at) = here.iter().position(|&at| at == joint) else {
                    return false;
                };
                joint = here[(at + 1) % here.len()];
                if !seen.insert((vertex, joint)) {
                    break;
                }
            }
        }
    }
    ends.is_multiple_of(2) && vertices + faces == ends / 2 + 2
}

/// Whether clockwise the rim comes to the housing from the output's end, leaves it to the input's, and all
/// else lies in between.
fn has_rim_in_order(embedding: &Embedding) -> bool {
    let housing = &embedding.around[vertices::HOUSING];
    let rim = |end: usize| {
        housing.iter().position(|&joint| {
            let (kind, ends) = embedding.joints[joint];
            kind == Joint::Rim && ends.contains(&end)
        })
    };
    match (rim(vertices::INPUT_END), rim(vertices::OUTPUT_END)) {
        (Some(input), Some(output)) => (input + 1) % housing.len() == output,
        _ => false,
    }
}

/// Whether the meshes of two suns beside each other are neighbours around their carrier.
fn suns_lie_together(embedding: &Embedding) -> bool {
    let suns = embedding.joints.iter().filter_map(|joint| match joint {
        (Joint::Suns(coupling), suns) => Some((*coupling, *suns)),
        _ => None,
    });
    suns.into_iter().all(|(set, suns)| {
        let Some(carrier) = embedding.carriers[set] else {
            return false;
        };
        let around = &embedding.around[carrier];
        let places: Vec<usize> = (0..around.len())
            .filter(|&at| match embedding.joints[around[at]] {
                (Joint::Mesh { coupling, .. }, [_, gear]) => {
                    coupling == set && suns.contains(&gear)
                }
                _ => false,
            })
            .collect();
        let next = |at: usize| (at + 1) % around.len();
        places
            .iter()
            .any(|&one| places.iter().any(|&other| next(one) == other))
    })
}
