//! A train on the road: what pulls it, how it speeds up, and the drawing of both.

use levertrain_core::Train;
use levertrain_core::traction::{Ask, LackReport, Missing, Rule, Traction};
use levertrain_web::boundary::drawings::paint_on;
use levertrain_web::boundary::plain::{plain, problems};
use levertrain_web::boundary::sandbox::Sandbox;
use levertrain_web::draw::scene::{Point, Scene};
use levertrain_web::draw::traction::{self, View};
use levertrain_web::road_unit::RoadUnit;
use levertrain_web::session::Session;
use wasm_bindgen::prelude::*;
use web_sys::HtmlCanvasElement;

use crate::drawings::{paint_picture, svg_of};

/// What the train that is open lacks to be driven on a road; null where it lacks nothing.
#[wasm_bindgen(js_name = roadLack, unchecked_return_type = "TractionLack | null")]
pub fn road_lack(sandbox: &Sandbox) -> Result<JsValue, JsValue> {
    let scenario = sandbox.session()?.train().scenario();
    let missing = match (&scenario.engine, &scenario.load) {
        (Some(_), Some(_)) => scenario.ranges.is_empty().then_some(Missing::Ranges),
        _ => Some(Missing::EngineAndLoad),
    };
    plain(&missing.map(LackReport::of))
}

/// The train that is open, on the road; what is assumed of it then stays so.
#[wasm_bindgen]
pub struct Road {
    train: Train,
    traction: Traction,
    slopes: Vec<f64>,
    cursor: Option<f64>,
}

#[wasm_bindgen]
impl Road {
    /// Reckons it with the page's mesh efficiency: from which forward range on, by falling ratio from 0, a converter is locked
    /// up, none where it never is; at which engine speed in rev/min ranges are left, none where forces cross; and the
    /// road speeds in m/s that times are wanted for. Throws what is out of range, and what the scenario lacks.
    #[wasm_bindgen(constructor)]
    pub fn new(
        sandbox: &Sandbox,
        locked_from: Option<u32>,
        shift_speed: Option<f64>,
        targets: Vec<f64>,
    ) -> Result<Road, JsValue> {
        let session = sandbox.session()?;
        let train = session.train().clone();
        let ask = Ask {
            mesh_efficiency: session.settings().mesh,
            locked_from: locked_from.map(|range| range as usize),
            rule: shift_speed.map_or(Rule::Force, Rule::EngineSpeed),
            targets,
        };
        let ask = ask
            .checked(&train)
            .map_err(|problem| problems(vec![problem]))?;
        let traction = Traction::of(&train, &ask)
            .map_err(|missing| JsValue::from_str(LackReport::of(missing).what))?;
        Ok(Self {
            train,
            traction,
            slopes: Vec::new(),
            cursor: None,
        })
    }

    /// All of it as plain data.
    #[wasm_bindgen(unchecked_return_type = "Traction")]
    pub fn report(&self) -> Result<JsValue, JsValue> {
        plain(&self.traction.report(&self.train))
    }

    /// What pulls at a road speed in m/s, and what the road asks.
    #[wasm_bindgen(unchecked_return_type = "TractionReading")]
    pub fn reading(&self, speed: f64) -> Result<JsValue, JsValue> {
        plain(&self.traction.reading(&self.train, speed, &self.slopes))
    }

    /// How it is drawn from now on: the road on which slopes besides the level, as rise over run, and which road speed in m/s
    /// is looked at.
    pub fn show(&mut self, slopes: Vec<f64>, cursor: Option<f64>) {
        self.slopes = slopes;
        self.cursor = cursor;
    }

    /// Where the plots stand at a width in CSS pixels.
    #[wasm_bindgen(unchecked_return_type = "TractionPlaces")]
    pub fn places(&self, sandbox: &Sandbox, width: f64) -> Result<JsValue, JsValue> {
        plain(&traction::places(&self.view(sandbox.session()?), width))
    }

    /// Id of the range whose line is nearest to a point of the drawing, if one is near.
    pub fn nearest(
        &self,
        sandbox: &Sandbox,
        width: f64,
        x: f64,
        y: f64,
    ) -> Result<Option<String>, JsValue> {
        let found = traction::nearest(&self.view(sandbox.session()?), width, Point { x, y });
        Ok(found.map(|range| self.train.scenario().ranges[range].id.clone()))
    }

    /// Draws it, as wide as the canvas.
    pub fn draw(&self, sandbox: &Sandbox, canvas: HtmlCanvasElement) -> Result<(), JsValue> {
        paint_on(sandbox.session()?, canvas, |session, (width, _)| {
            Ok(traction::scene(&self.view(session), width))
        })
    }

    /// The drawing as the text of an SVG file, in `light` colours or those on screen, without the cursor.
    pub fn svg(&self, sandbox: &Sandbox, width: f64, light: bool) -> Result<String, JsValue> {
        let session = sandbox.session()?;
        svg_of(session, light, &self.still(session, width))
    }

    /// The same on a canvas whose backing store has the size of the drawing times `scale`.
    #[wasm_bindgen(js_name = drawPicture)]
    pub fn draw_picture(
        &self,
        sandbox: &Sandbox,
        canvas: HtmlCanvasElement,
        scale: f64,
        light: bool,
    ) -> Result<(), JsValue> {
        let session = sandbox.session()?;
        paint_picture(session, canvas, (scale, light), |session, (width, _)| {
            Ok(self.still(session, width))
        })
    }
}

impl Road {
    fn view(&self, session: &Session) -> View<'_> {
        let mut ranges = 0..self.train.scenario().ranges.len();
        View {
            train: &self.train,
            traction: &self.traction,
            slopes: &self.slopes,
            present: ranges.find(|&range| self.train.range(range) == session.applied()),
            cursor: self.cursor,
            speed_unit: session.settings().speed_unit,
            road_unit: RoadUnit::with(session.settings().torque_unit),
        }
    }

    fn still(&self, session: &Session, width: f64) -> Scene {
        let view = View {
            cursor: None,
            ..self.view(session)
        };
        traction::scene(&view, width)
    }
}
