//! The page's canvas as something to paint on: the backend of plotters, and the broken lines that a
//! canvas can draw in one go.

use js_sys::Array;
use plotters_backend::{
    BackendColor, BackendCoord, BackendStyle, BackendTextStyle, DrawingBackend, DrawingErrorKind,
};
use plotters_canvas::CanvasBackend;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

use crate::draw::Surface;

type Refusal = <CanvasBackend as DrawingBackend>::ErrorType;
type Outcome = Result<(), DrawingErrorKind<Refusal>>;

/// A canvas that is painted on.
pub struct Canvas {
    backend: CanvasBackend,
    context: CanvasRenderingContext2d,
}

impl Canvas {
    /// Nothing where the canvas cannot be painted on.
    pub fn of(canvas: HtmlCanvasElement) -> Option<Self> {
        let context = canvas.get_context("2d").ok()??.dyn_into().ok()?;
        let backend = CanvasBackend::with_canvas_object(canvas)?;
        Some(Self { backend, context })
    }
}

impl Surface for Canvas {
    fn breaks_lines(&mut self, lengths: &[f64]) -> bool {
        let lengths: Array = lengths.iter().copied().map(JsValue::from).collect();
        self.context.set_line_dash(&lengths).is_ok()
    }
}

impl DrawingBackend for Canvas {
    type ErrorType = Refusal;

    fn get_size(&self) -> (u32, u32) {
        self.backend.get_size()
    }

    fn ensure_prepared(&mut self) -> Outcome {
        self.backend.ensure_prepared()
    }

    fn present(&mut self) -> Outcome {
        self.backend.present()
    }

    fn draw_pixel(&mut self, point: BackendCoord, colour: BackendColor) -> Outcome {
        self.backend.draw_pixel(point, colour)
    }

    fn draw_path<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        path: I,
        style: &S,
    ) -> Outcome {
        self.backend.draw_path(path, style)
    }

    fn fill_polygon<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        corners: I,
        style: &S,
    ) -> Outcome {
        self.backend.fill_polygon(corners, style)
    }

    fn draw_circle<S: BackendStyle>(
        &mut self,
        centre: BackendCoord,
        radius: u32,
        style: &S,
        fill: bool,
    ) -> Outcome {
        self.backend.draw_circle(centre, radius, style, fill)
    }

    fn draw_text<S: BackendTextStyle>(
        &mut self,
        text: &str,
        style: &S,
        at: BackendCoord,
    ) -> Outcome {
        self.backend.draw_text(text, style, at)
    }
}
