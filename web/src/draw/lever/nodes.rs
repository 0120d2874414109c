//! Where nodes can be taken hold of, to turn members by hand.

use levertrain_core::Body;

use super::geometry::Diagram;
use super::pinned::reaching;
use crate::draw::scene::Point;
use crate::draw::section::Stage;
use crate::motion::live::Live;

/// Where nodes stand.
#[derive(Debug, Clone, PartialEq)]
pub struct NodePlaces {
    /// Height of the drawing in CSS pixels.
    pub height: f64,
    /// How many rev/min a CSS pixel upwards is.
    pub per_pixel: f64,
    /// A shaft and a place of it, lever by lever.
    pub nodes: Vec<(usize, Point)>,
}

/// What a unit of the axis counts as while the input rests, in rev/min.
const UNIT: f64 = 1000.0;

/// Where the nodes of the diagram stand, before those of `pinned` where it is compared.
pub fn node_places(
    live: &Live<'_>,
    stage: &Stage<'_>,
    merged: bool,
    pinned: Option<&Live<'_>>,
) -> NodePlaces {
    let reaches = pinned.map(|pinned| reaching(live, pinned));
    let live = reaches.as_ref().unwrap_or(live);
    let diagram = Diagram::of(live, stage, merged);
    let nodes = diagram.nodes().flat_map(|node| {
        let bodies = node.bodies.iter();
        bodies.filter_map(|&body| match body {
            Body::Housing => None,
            Body::Shaft(shaft) => Some((shaft, node.at)),
        })
    });
    let unit = match live.input_speed {
        0.0 => UNIT,
        speed => speed,
    };
    NodePlaces {
        height: diagram.size.1,
        per_pixel: diagram.axis.per_pixel() * unit,
        nodes: nodes.collect(),
    }
}

#[cfg(test)]
mod tests {
    use levertrain_core::sources::{Ports, Stand};

    use super::*;
    use crate::draw::lever::scene;
    use crate::draw::tests::session;
    use crate::motion::instant::Instant;

    /// Nodes stand as far apart as their speeds are, also where the input rests or turns backwards.
    #[test]
    fn heights_are_speeds() {
        let mut session = session("14");
        let train = session.train().clone();
        let elements = train.scenario().elements.len();
        let layout = session.layout().clone();
        for (input, output) in [(2000.0, 900.0), (0.0, -900.0), (-1500.0, 300.0)] {
            let applied = levertrain_core::ElementSet::NONE;
            let mut stand = Stand::of(&train, applied, Ports::of(&train).0, input);
            let turned = stand.turn(&train, train.output(), output);
            assert_eq!(turned, Ok(()));
            let reach = (-9000.0, 9000.0);
            session.show_instant(Some(Instant::by_hand(&stand, elements, reach)));
            let (live, stage) = (session.live(), layout.stage(900.0));
            let places = node_places(&live, &stage, false, None);
            assert!(places.per_pixel > 0.0 && places.nodes.len() >= 5);
            let (first, top) = places.nodes[0];
            for &(shaft, place) in &places.nodes {
                let apart = stand.turns()[shaft] - stand.turns()[first];
                let expected = apart / places.per_pixel;
                assert!(
                    (top.y - place.y - expected).abs() < 1e-6,
                    "{shaft} at {place:?}"
                );
            }
            let scene = scene(&live, &stage, false);
            assert!((scene.height - places.height).abs() < 1e-9);
            let texts: Vec<&str> = scene.labels().map(|label| label.text.as_str()).collect();
            assert!(texts.contains(&"rev/min"), "{texts:?}");
            // No line says what the input turns at: its node does.
            assert!(
                !texts.iter().any(|text| text.starts_with("input ")),
                "{texts:?}"
            );
        }
    }
}
