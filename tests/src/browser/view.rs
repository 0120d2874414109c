//! The screens and wishes of a system that the page is tried with.

use anyhow::Result;
use serde_json::{Value, json};

use super::session::Session;

/// A screen, and what the user's system asks for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct View {
    /// Width in CSS pixels.
    pub width: u32,
    /// Height in CSS pixels.
    pub height: u32,
    /// Device pixels to a CSS pixel.
    pub density: f64,
    /// Whether it is a device with a touch screen.
    pub touch: bool,
    /// Whether the system is set to dark colours.
    pub dark: bool,
    /// Whether the system forces its own few colours upon pages.
    pub forced: bool,
    /// Whether the system asks for little motion.
    pub still: bool,
    /// Whether it must be a browser with windows.
    pub in_window: bool,
    /// Whether the browser lets a site be kept for when there is no network.
    pub keeps: bool,
}

impl View {
    /// A laptop.
    pub const LAPTOP: Self = Self {
        width: 1280,
        height: 800,
        density: 1.0,
        touch: false,
        dark: false,
        forced: false,
        still: false,
        in_window: false,
        keeps: false,
    };

    /// A phone.
    pub const PHONE: Self = Self {
        width: 390,
        height: 844,
        density: 3.0,
        touch: true,
        ..Self::LAPTOP
    };

    /// The same in dark colours.
    #[must_use]
    pub const fn dark(self) -> Self {
        Self { dark: true, ..self }
    }

    /// The same in colours that the system forces.
    #[must_use]
    pub const fn forced(self) -> Self {
        Self {
            forced: true,
            ..self
        }
    }

    /// The same with little motion.
    #[must_use]
    pub const fn still(self) -> Self {
        Self {
            still: true,
            ..self
        }
    }

    /// The same in Chromium itself, for what its headless shell does not have.
    #[must_use]
    pub const fn in_window(self) -> Self {
        Self {
            in_window: true,
            ..self
        }
    }

    /// The same in a browser that lets the site be kept. Elsewhere it does not: each test would have all of it
    /// fetched and written once more, which takes as long as opening the page.
    #[must_use]
    pub const fn keeping(self) -> Self {
        Self {
            keeps: true,
            ..self
        }
    }

    /// The same on a screen with this many device pixels to a CSS pixel.
    #[must_use]
    pub const fn density(self, density: f64) -> Self {
        Self { density, ..self }
    }

    pub(super) fn apply(self, session: &Session) -> Result<()> {
        let metrics = json!({
            "width": self.width,
            "height": self.height,
            "deviceScaleFactor": self.density,
            "mobile": self.touch,
        });
        session.cdp("Emulation.setDeviceMetricsOverride", metrics)?;
        let touch = json!({ "enabled": self.touch, "maxTouchPoints": 5 });
        session.cdp("Emulation.setTouchEmulationEnabled", touch)?;
        session.cdp("Emulation.setEmulatedMedia", self.media())?;
        Ok(())
    }

    pub(super) fn media(self) -> Value {
        let scheme = if self.dark { "dark" } else { "light" };
        let motion = if self.still {
            "reduce"
        } else {
            "no-preference"
        };
        let forced = if self.forced { "active" } else { "none" };
        json!({ "features": [
            { "name": "forced-colors", "value": forced },
            { "name": "prefers-color-scheme", "value": scheme },
            { "name": "prefers-reduced-motion", "value": motion },
        ]})
    }
}
