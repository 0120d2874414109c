//! A train with several sources or outputs: its speeds and torques set by hand, and drawings of what follows.

use levertrain_core::sources::{Ports, RegionReport, SharesReport, Stand, StandReport};
use levertrain_core::{ElementSet, Problem, Train};
use levertrain_web::boundary::drawings::paint_on;
use levertrain_web::boundary::plain::{plain, problems};
use levertrain_web::boundary::sandbox::Sandbox;
use levertrain_web::draw::lever;
use levertrain_web::draw::plot::{self, Curve, Plot};
use levertrain_web::draw::scene::{Point, Scene};
use levertrain_web::instant::Instant;
use levertrain_web::live::Live;
use levertrain_web::session::Session;
use wasm_bindgen::prelude::*;
use web_sys::HtmlCanvasElement;

use crate::drawings::{paint_picture, svg_of};

/// Room above the fastest speed on the axis, when that is laid out anew.
const ROOM: f64 = 1.3;
/// The axis is laid out anew when all speeds are within this part of it.
const SMALL: f64 = 0.35;
/// How far it reaches at least, in rev/min.
const LEAST: f64 = 100.0;

/// Speeds and torques of a train that are set by hand.
#[wasm_bindgen]
pub struct Sources {
    train: Train,
    stand: Stand,
    faults: Vec<String>,
    /// Slowest and fastest speed of the axis in rev/min, and those that it has for the steady motion.
    reach: (f64, f64),
    usual: (f64, f64),
    shares: Plot,
    region: Plot,
}

#[wasm_bindgen]
impl Sources {
    /// The train in a text, with these elements applied, its input at a speed in rev/min.
    #[wasm_bindgen(constructor)]
    pub fn new(sandbox: &Sandbox, text: &str, speed: f64) -> Result<Sources, JsValue> {
        let train = Train::parse(text).map_err(problems)?;
        let (ports, faults) = Ports::of(&train);
        let stand = Stand::of(&train, applied(sandbox)?, ports, speed);
        let mut sources = Self {
            faults: faults.iter().map(Problem::to_string).collect(),
            train,
            stand,
            reach: (0.0, 0.0),
            usual: usual(sandbox)?,
            shares: Plot::default(),
            region: Plot::default(),
        };
        sources.fit(true);
        Ok(sources)
    }

    /// What is wrong in the field of the file, a line each.
    pub fn faults(&self) -> Vec<String> {
        self.faults.clone()
    }

    /// The elements that are applied on the stage are applied here.
    pub fn apply(&mut self, sandbox: &Sandbox) -> Result<(), JsValue> {
        self.stand.apply(&self.train, applied(sandbox)?);
        self.usual = usual(sandbox)?;
        self.fit(true);
        Ok(())
    }

    /// Turns a shaft at a speed in rev/min. What decides its speed already comes back: ids of shafts, or one empty
    /// text where it is held; nothing where it turns.
    pub fn turn(&mut self, shaft: &str, speed: f64) -> Vec<String> {
        let Some(shaft) = self.shaft(shaft) else {
            return Vec::new();
        };
        let turned = self.stand.turn(&self.train, shaft, speed);
        self.fit(false);
        match turned {
            Ok(()) => Vec::new(),
            Err(tie) if tie.by.is_empty() => vec![String::new()],
            Err(tie) => {
                let shafts = &self.train.scenario().shafts;
                tie.by.iter().map(|&by| shafts[by].id.clone()).collect()
            }
        }
    }

    /// Lays the axis out anew where speeds have become small on it.
    pub fn rest(&mut self) {
        self.fit(true);
    }

    /// Keeps a shaft at its speed, or no longer.
    pub fn keep(&mut self, shaft: &str, keeps: bool) {
        if let Some(shaft) = self.shaft(shaft) {
            self.stand.keep(&self.train, shaft, keeps);
        }
    }

    /// Sets the torque at a port, by its place in the report, in N·m on the train.
    pub fn push(&mut self, port: u32, torque: f64) {
        self.stand.push(port as usize, torque);
    }

    /// Has the motors balance each other.
    pub fn balance(&mut self, balanced: bool) {
        self.stand.balance(balanced);
    }

    /// Has both drawings of the stage show these speeds, or the steady motion again; whether they show them.
    #[wasm_bindgen(js_name = showOnStage)]
    pub fn show_on_stage(&self, sandbox: &mut Sandbox, shows: bool) -> Result<bool, JsValue> {
        let session = sandbox.session_mut()?;
        // Edited meanwhile, it is another train.
        let shows = shows && session.train().scenario() == self.train.scenario();
        session.show_instant(shows.then(|| self.instant()));
        Ok(shows)
    }

    /// Where nodes stand on the stage as it is shown: rev/min of a CSS pixel, and of each node its shaft's place in the report, to
    /// the right, and down.
    #[wasm_bindgen(js_name = placesOnStage)]
    pub fn places_on_stage(&self, sandbox: &Sandbox) -> Result<Vec<f64>, JsValue> {
        Ok(places(sandbox.session()?, None))
    }

    /// The same before the levers of `pinned`, which they are compared with.
    #[wasm_bindgen(js_name = placesCompared)]
    pub fn places_compared(
        &self,
        sandbox: &Sandbox,
        pinned: &Sandbox,
    ) -> Result<Vec<f64>, JsValue> {
        Ok(places(sandbox.session()?, Some(&pinned.session()?.live())))
    }

    /// How it stands.
    #[wasm_bindgen(unchecked_return_type = "SourcesStand")]
    pub fn stand(&self) -> Result<JsValue, JsValue> {
        plain(&StandReport::of(&self.train, &self.stand))
    }

    /// What the output can do within all limits.
    #[wasm_bindgen(unchecked_return_type = "SourcesRegion")]
    pub fn region(&self) -> Result<JsValue, JsValue> {
        plain(&RegionReport::of(&self.train, &self.stand))
    }

    /// Shares of power over the ratio of output to input speed.
    #[wasm_bindgen(unchecked_return_type = "SourcesShares")]
    pub fn shares(&self) -> Result<JsValue, JsValue> {
        plain(&SharesReport::of(&self.train, &self.stand))
    }

    /// What the plot of the region shows: `words` are what runs across, what runs upwards, what the area is and what the ring
    /// is; speeds and torques are divided by the sizes of their units.
    #[wasm_bindgen(js_name = plotRegion)]
    pub fn plot_region(&mut self, words: Vec<String>, speed: f64, torque: f64) {
        let report = RegionReport::of(&self.train, &self.stand);
        let word = |at: usize| words.get(at).cloned().unwrap_or_default();
        let output = self.stand.ports().output();
        let now = [
            self.stand.turns()[self.train.output()] / speed,
            -self.stand.torques()[output] / torque,
        ];
        let rows = report.edges.iter();
        self.region = Plot {
            across: word(0),
            up: word(1),
            area: rows
                .map(|[at, least, most]| [at / speed, least / torque, most / torque])
                .collect(),
            area_name: word(2),
            now: Some((now, word(3))),
            ..Plot::default()
        };
    }

    /// The same for shares of power: `words` are what runs across, upwards, and what the ring is, `names` those of the ports and of the
    /// efficiency, `marks` the words for each ratio at which a port stands still.
    #[wasm_bindgen(js_name = plotShares)]
    pub fn plot_shares(&mut self, words: Vec<String>, names: Vec<String>, marks: Vec<String>) {
        let report = SharesReport::of(&self.train, &self.stand);
        let stand = StandReport::of(&self.train, &self.stand);
        let word = |at: usize| words.get(at).cloned().unwrap_or_default();
        let value = |index: usize| {
            let points = report.points.iter();
            points.map(move |point| {
                let own = point.powers.get(index).copied();
                [point.ratio, own.or(point.efficiency).unwrap_or(f64::NAN)]
            })
        };
        let curves = names.into_iter().enumerate().skip(1);
        let curves = curves.map(|(index, name)| Curve {
            name,
            points: value(index).collect(),
        });
        let still = stand.standstills.iter().map(|still| still.ratio.decimal);
        let turns = self.stand.turns();
        let ratio = turns[self.train.output()] / turns[self.train.input()];
        let input = self.stand.power(0);
        let share = self.stand.power(self.stand.ports().output()) / input;
        self.shares = Plot {
            across: word(0),
            up: word(1),
            curves: curves.collect(),
            marks: still.zip(marks).collect(),
            now: (ratio.is_finite() && share.is_finite())
                .then(|| ([ratio, share.clamp(-1.6, 1.6)], word(2))),
            limits: Some([-1.6, 1.6]),
            ..Plot::default()
        };
    }

    /// Where nodes of the levers stand at a width in CSS pixels: height of the drawing, rev/min of a CSS pixel, the least
    /// width there must be, and of each node its shaft's place in the report, to the right, and down.
    pub fn places(&self, sandbox: &Sandbox, width: f64) -> Result<Vec<f64>, JsValue> {
        let session = sandbox.session()?;
        let (stage, merged) = (session.layout().stage(width), session.settings().merged);
        let places = lever::node_places(&self.live(session), &stage, merged, None);
        let least = session.layout().stage(0.0).size().width;
        let head = [places.height, places.per_pixel, least];
        Ok(head.into_iter().chain(flat(&places.nodes)).collect())
    }

    /// The height of `region` or `shares` at a width in CSS pixels.
    pub fn height(&self, drawing: &str, width: f64) -> f64 {
        plot::height(self.plot(drawing), width)
    }

    /// Draws `levers`, `region` or `shares`, as wide as the canvas.
    pub fn draw(
        &self,
        sandbox: &Sandbox,
        drawing: &str,
        canvas: HtmlCanvasElement,
    ) -> Result<(), JsValue> {
        paint_on(sandbox.session()?, canvas, |session, (width, _)| {
            Ok(self.scene(session, drawing, width))
        })
    }

    /// The drawing as the text of an SVG file, in `light` colours or those on screen.
    pub fn svg(
        &self,
        sandbox: &Sandbox,
        drawing: &str,
        width: f64,
        light: bool,
    ) -> Result<String, JsValue> {
        let session = sandbox.session()?;
        let scene = self.scene(session, drawing, width);
        svg_of(session, light, &scene)
    }

    /// The same on a canvas whose backing store has the size of the drawing times `scale`.
    #[wasm_bindgen(js_name = drawPicture)]
    pub fn draw_picture(
        &self,
        sandbox: &Sandbox,
        drawing: &str,
        canvas: HtmlCanvasElement,
        scale: f64,
        light: bool,
    ) -> Result<(), JsValue> {
        let session = sandbox.session()?;
        paint_picture(session, canvas, (scale, light), |session, (width, _)| {
            Ok(self.scene(session, drawing, width))
        })
    }
}

/// The elements that hold on the stage, one-way clutches that lock among them.
fn applied(sandbox: &Sandbox) -> Result<ElementSet, JsValue> {
    Ok(sandbox.session()?.combination().applied())
}

impl Sources {
    fn shaft(&self, id: &str) -> Option<usize> {
        let mut shafts = self.train.scenario().shafts.iter();
        shafts.position(|shaft| shaft.id == id)
    }

    fn plot(&self, drawing: &str) -> &Plot {
        match drawing {
            "region" => &self.region,
            _ => &self.shares,
        }
    }

    fn scene(&self, session: &Session, drawing: &str, width: f64) -> Scene {
        if drawing != "levers" {
            return plot::scene(self.plot(drawing), width);
        }
        let stage = session.layout().stage(width);
        lever::scene(&self.live(session), &stage, session.settings().merged)
    }

    fn instant(&self) -> Instant {
        let elements = self.train.scenario().elements.len();
        Instant::by_hand(&self.stand, elements, self.reach)
    }

    /// What is on screen, with these speeds in the place of its own.
    fn live<'a>(&self, session: &'a Session) -> Live<'a> {
        let mut live = session.live();
        self.instant().put_on(&mut live);
        live
    }

    /// Fits the axis to the speeds: larger as soon as one is beyond it, smaller only at rest, and never smaller than that of
    /// the steady motion, so that nothing moves as a node is taken hold of.
    fn fit(&mut self, at_rest: bool) {
        let side = |now: f64, usual: f64, wanted: f64| -> f64 {
            let least = match wanted <= usual {
                true => usual,
                false => wanted * ROOM,
            };
            match () {
                () if wanted > now => least,
                () if at_rest && (wanted < now * SMALL || wanted <= usual) => least,
                () => now,
            }
        };
        let turns = self.stand.turns().iter();
        let (low, high) = turns.fold((0.0_f64, 0.0_f64), |(low, high), &turn| {
            (low.min(turn), high.max(turn))
        });
        let (usual_low, usual_high) = self.usual;
        self.reach = (
            -side(-self.reach.0, -usual_low, -low),
            side(self.reach.1, usual_high, high),
        );
    }
}

/// How far the speeds of the stage reach, in rev/min: at least so far that something can be seen to move.
fn usual(sandbox: &Sandbox) -> Result<(f64, f64), JsValue> {
    let session = sandbox.session()?;
    let (reach, unit) = (session.reach(), session.settings().speed);
    Ok((reach.low * unit, (reach.high * unit).max(LEAST)))
}

/// Speed of a pixel upwards, then shafts and where they stand.
fn places(session: &Session, pinned: Option<&Live<'_>>) -> Vec<f64> {
    let merged = session.settings().merged;
    let places = lever::node_places(&session.live(), &session.stage(), merged, pinned);
    std::iter::once(places.per_pixel)
        .chain(flat(&places.nodes))
        .collect()
}

/// Shafts and where they stand, as numbers.
fn flat(nodes: &[(usize, Point)]) -> impl Iterator<Item = f64> + '_ {
    let each = |(shaft, point): &(usize, Point)| [*shaft as f64, point.x, point.y];
    nodes.iter().flat_map(each)
}
