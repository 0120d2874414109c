//! Painting a scene on any plotters backend: the page's canvas, an SVG file, a test picture.

use plotters_backend::text_anchor::{HPos, Pos, VPos};
use plotters_backend::{
    BackendColor, BackendCoord, BackendStyle, BackendTextStyle, DrawingBackend, DrawingErrorKind,
    FontFamily, FontStyle, FontTransform,
};

use super::palette::Palette;
use super::scene::{Align, Dash, Ink, Label, Mark, Point, Scene, Stroke};

/// How a backend's coordinates relate to CSS pixels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Device {
    /// Backend units per CSS pixel. Backends take whole numbers only, so this is also how fine
    /// positions are.
    pub scale: f64,
    /// What a font size must be multiplied by for this backend to draw that many pixels.
    pub text_scale: f64,
}

impl Device {
    /// A canvas whose backing store has `scale` pixels per CSS pixel.
    pub const fn canvas(scale: f64) -> Self {
        Self {
            scale,
            text_scale: 1.0,
        }
    }

    /// An SVG file, in eighths of a pixel. Its backend divides font sizes by 1.24.
    pub const SVG: Self = Self {
        scale: 8.0,
        text_scale: 1.24,
    };
}

/// The face all drawings are lettered in; the page ships it, a file falls back.
pub const FACE: &str = "'Barlow Semi Condensed', 'Arial Narrow', sans-serif";

/// A backend that a scene can be painted on.
pub trait Surface: DrawingBackend {
    /// Breaks lines that are drawn from now on into strokes and spaces of these lengths, in turn, in units
    /// of the backend; none leave them whole. Whether it can: most backends know no broken lines.
    fn breaks_lines(&mut self, _lengths: &[f64]) -> bool {
        false
    }
}

type Outcome<B> = Result<(), DrawingErrorKind<<B as DrawingBackend>::ErrorType>>;

/// Paints `scene`, ground first.
///
/// # Errors
/// What the backend reports.
pub fn paint<B: Surface>(
    scene: &Scene,
    backend: &mut B,
    palette: Palette,
    device: Device,
) -> Outcome<B> {
    let mut brush = Brush {
        backend,
        palette,
        device,
    };
    let whole = [
        (0.0, 0.0),
        (scene.width, 0.0),
        (scene.width, scene.height),
        (0.0, scene.height),
    ];
    brush.fill(&whole.map(|(x, y)| Point { x, y }), Ink::Paper)?;
    for mark in &scene.marks {
        match mark {
            Mark::Path { points, stroke } => brush.path(points, *stroke)?,
            Mark::Fill { points, ink } => brush.fill(points, *ink)?,
            Mark::Disc {
                centre,
                radius,
                ink,
            } => brush.disc(*centre, *radius, *ink)?,
            Mark::Text(label) => brush.label(label)?,
        }
    }
    brush.backend.present()
}

struct Brush<'a, B> {
    backend: &'a mut B,
    palette: Palette,
    device: Device,
}

impl<B: Surface> Brush<'_, B> {
    fn coord(&self, point: Point) -> BackendCoord {
        let scale = self.device.scale;
        (
            (point.x * scale).round() as i32,
            (point.y * scale).round() as i32,
        )
    }

    fn coords(&self, points: &[Point]) -> Vec<BackendCoord> {
        points.iter().map(|&point| self.coord(point)).collect()
    }

    fn pen(&self, stroke: Stroke) -> Pen {
        let width = (stroke.width * self.device.scale).round().max(1.0) as u32;
        Pen {
            colour: self.palette.colour(stroke.ink),
            width,
        }
    }

    fn path(&mut self, points: &[Point], stroke: Stroke) -> Outcome<B> {
        let pen = self.pen(stroke);
        let Some(pattern) = pattern(stroke) else {
            let coords = self.coords(points);
            return self.backend.draw_path(coords, &pen);
        };
        let scale = self.device.scale;
        let lengths: Vec<f64> = pattern.iter().map(|length| length * scale).collect();
        if self.backend.breaks_lines(&lengths) {
            let coords = self.coords(points);
            self.backend.draw_path(coords, &pen)?;
            self.backend.breaks_lines(&[]);
            return Ok(());
        }
        for piece in dashes(points, &pattern) {
            let coords = self.coords(&piece);
            self.backend.draw_path(coords, &pen)?;
        }
        Ok(())
    }

    fn fill(&mut self, points: &[Point], ink: Ink) -> Outcome<B> {
        let pen = Pen {
            colour: self.palette.colour(ink),
            width: 1,
        };
        let coords = self.coords(points);
        self.backend.fill_polygon(coords, &pen)
    }

    fn disc(&mut self, centre: Point, radius: f64, ink: Ink) -> Outcome<B> {
        let pen = Pen {
            colour: self.palette.colour(ink),
            width: 1,
        };
        let radius = (radius * self.device.scale).round() as u32;
        let centre = self.coord(centre);
        self.backend.draw_circle(centre, radius, &pen, true)
    }

    fn label(&mut self, label: &Label) -> Outcome<B> {
        if label.plate {
            let area = label.bounds();
            let (right, bottom) = (area.left + area.width, area.top + area.height);
            let corners = [
                (area.left, area.top),
                (right, area.top),
                (right, bottom),
                (area.left, bottom),
            ];
            self.fill(&corners.map(|(x, y)| Point { x, y }), Ink::Paper)?;
        }
        let style = Lettering {
            colour: self.palette.colour(label.ink),
            size: label.size * self.device.scale * self.device.text_scale,
            bold: label.bold,
            align: label.align,
        };
        let coord = self.coord(label.at);
        self.backend.draw_text(&label.text, &style, coord)
    }
}

/// Lengths of stroke and space, alternating, in CSS pixels.
fn pattern(stroke: Stroke) -> Option<Vec<f64>> {
    let width = stroke.width.max(1.0);
    match stroke.dash {
        Dash::Solid => None,
        Dash::Dashed => Some(vec![width * 3.0 + 2.0, width * 1.5 + 3.0]),
        Dash::Dotted => Some(vec![width, width + 3.0]),
        Dash::Chain => Some(vec![12.0, 4.0, 2.0, 4.0]),
    }
}

/// Cuts a line into its strokes, for backends that cannot.
fn dashes(points: &[Point], pattern: &[f64]) -> Vec<Vec<Point>> {
    let mut pieces = Vec::new();
    let (mut index, mut left) = (0, pattern[0]);
    let mut piece: Vec<Point> = points.first().copied().into_iter().collect();
    for pair in points.windows(2) {
        let (from, to) = (pair[0], pair[1]);
        let length = (to.x - from.x).hypot(to.y - from.y);
        let mut done = 0.0;
        while length - done > left {
            done += left;
            let along = done / length;
            let cut = Point {
                x: from.x + (to.x - from.x) * along,
                y: from.y + (to.y - from.y) * along,
            };
            if index % 2 == 0 {
                piece.push(cut);
                pieces.push(std::mem::take(&mut piece));
            } else {
                piece = vec![cut];
            }
            index += 1;
            left = pattern[index % pattern.len()];
        }
        left -= length - done;
        if index % 2 == 0 {
            piece.push(to);
        }
    }
    if index % 2 == 0 && piece.len() > 1 {
        pieces.push(piece);
    }
    pieces
}

struct Pen {
    colour: BackendColor,
    width: u32,
}

impl BackendStyle for Pen {
    fn color(&self) -> BackendColor {
        self.colour
    }

    fn stroke_width(&self) -> u32 {
        self.width
    }
}

struct Lettering {
    colour: BackendColor,
    size: f64,
    bold: bool,
    align: Align,
}

impl BackendTextStyle for Lettering {
    type FontError = std::convert::Infallible;

    fn color(&self) -> BackendColor {
        self.colour
    }

    fn size(&self) -> f64 {
        self.size
    }

    fn transform(&self) -> FontTransform {
        FontTransform::None
    }

    fn style(&self) -> FontStyle {
        if self.bold {
            FontStyle::Bold
        } else {
            FontStyle::Normal
        }
    }

    fn anchor(&self) -> Pos {
        let h_pos = match self.align {
            Align::Left => HPos::Left,
            Align::Centre => HPos::Center,
            Align::Right => HPos::Right,
        };
        Pos::new(h_pos, VPos::Center)
    }

    fn family(&self) -> FontFamily<'_> {
        FontFamily::Name(FACE)
    }

    /// Only bitmap backends ask for this; those that letter for themselves never do.
    fn layout_box(&self, text: &str) -> Result<((i32, i32), (i32, i32)), Self::FontError> {
        let width = super::text::width(text, self.size, self.bold) as i32;
        Ok(((0, 0), (width, self.size as i32)))
    }

    /// Backends that cannot letter call this; the text is left out there.
    fn draw<E, DrawFunc: FnMut(i32, i32, BackendColor) -> Result<(), E>>(
        &self,
        _: &str,
        _: (i32, i32),
        _: DrawFunc,
    ) -> Result<Result<(), E>, Self::FontError> {
        Ok(Ok(()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dashes_cover_what_the_pattern_says() {
        let points = [
            Point { x: 0.0, y: 0.0 },
            Point { x: 6.0, y: 0.0 },
            Point { x: 6.0, y: 4.0 },
        ];
        let pieces = dashes(&points, &[4.0, 1.0]);
        let ends: Vec<[(f64, f64); 2]> = pieces
            .iter()
            .map(|piece| [piece[0], piece[piece.len() - 1]].map(|p| (p.x, p.y)))
            .collect();
        assert_eq!(ends, [[(0.0, 0.0), (4.0, 0.0)], [(5.0, 0.0), (6.0, 3.0)]]);
    }
}
