//! The half-section for the back row of a class: the same drawing in larger letters, with more room for
//! them above and below, and fewer words where that is still too little.

use super::lettering::{Large, Lettering};
use super::places::Places;
use super::{Stage, figures, packs, wires};
use crate::draw::scene::{Dash, Ink, Scene, Stroke};
use crate::motion::live::Live;

/// How far the names of the outer sets give way to the speeds of the ends where these find no room, the least
/// first, in CSS pixels: under their sets they stay.
const GIVES_WAY: [f64; 4] = [8.0, 16.0, 24.0, 32.0];

/// Where the words of a half-section stand in large letters, in one width.
#[derive(Debug, Clone)]
pub struct Far {
    letters: Large,
    places: Places,
}

impl Far {
    /// Finds places for letters `times` as large as usual.
    pub fn of(stage: &Stage<'_>, times: f64) -> Self {
        let stage = stage.by_itself();
        let mut letters = Large {
            times: times.max(1.0),
            short: false,
            asks: false,
            gives_way: 0.0,
        };
        let find = |letters| Places::find(&stage, wires::SHAFT, letters);
        let mut places = find(letters);
        // All by their letters or none: "Brake V" beside "W" would read as two kinds.
        if places.cut_some(&stage) {
            letters.short = true;
            places = find(letters);
        }
        for gives_way in GIVES_WAY {
            if places.tell_speeds() {
                break;
            }
            letters.gives_way = gives_way;
            places = find(letters);
        }
        Self { letters, places }
    }

    /// How much more room there is above and below, in CSS pixels.
    pub fn beyond(&self) -> (f64, f64) {
        self.letters.beyond()
    }

    /// Draws the half-section, the room above it first; speeds may be `asked` for.
    pub fn scene(&self, stage: &Stage<'_>, live: &Live<'_>, asked: bool) -> Scene {
        let stage = &stage.by_itself();
        let size = stage.size();
        let (above, below) = self.beyond();
        let letters = Large {
            asks: asked,
            ..self.letters
        };
        let mut scene = Scene::new(size.width, size.section_height + above + below);
        let chain = Stroke::broken(Ink::Quiet, 1.0, Dash::Chain);
        for [from, to] in stage.axis_lines() {
            scene.line(from, to, chain);
        }
        packs::draw_housing(&mut scene, stage);
        wires::draw(&mut scene, stage, live);
        figures::draw(&mut scene, stage, live, letters);
        packs::draw(&mut scene, stage, live);
        stage.ends(&mut scene, live);
        self.places.letter(&mut scene, stage, live, letters);
        scene.replace(|points| points.iter_mut().for_each(|point| point.y += above));
        scene
    }
}
