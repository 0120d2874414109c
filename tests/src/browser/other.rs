//! Browsers with other engines than Chromium's.

use std::path::{Path, PathBuf};
use std::{env, fs};

use anyhow::{Context, Result};
use serde_json::{Value, json};
use xtask::test_environment::{FIREFOX, SITE, WEBKIT};
use xtask::{paths, site};

use super::driver::Driver;
use super::environment::{required, skipped};
use super::own_site;
use super::page::{self, Page};
use super::session::Session;

/// Lets a test do in Firefox what its reader does outside the page.
const SYSTEM_ACCESS: [&str; 1] = ["--allow-system-access"];

/// A browser with another engine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Other {
    /// Gecko.
    Firefox,
    /// WebKit.
    WebKit,
}

impl Other {
    /// Opens the page of the built site at an element with these attributes, runs the test and closes
    /// everything; says so where this browser is not to be had.
    ///
    /// # Errors
    /// Those of the test, and any error the page reports unasked.
    pub fn open(self, attributes: &str, test: impl FnOnce(&mut Page) -> Result<()>) -> Result<()> {
        // Other servers put no script before those of a page.
        let host = format!(
            "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Page</title>\
             <link rel=\"icon\" href=\"data:,\"><link rel=\"stylesheet\" href=\"css/page.css\">\
             <script src=\"probe.js\"></script><script type=\"module\" src=\"element.js\"></script>\
             <lever-train address with=\"all\" {attributes}></lever-train>"
        );
        self.open_with(("page.html", &host), &[], test)
    }

    /// Opens a page of the built site, and does as [`Other::open`] does.
    ///
    /// # Errors
    /// As there.
    pub fn open_page(self, name: &str, test: impl FnOnce(&mut Page) -> Result<()>) -> Result<()> {
        self.open_page_beside(name, &[], test)
    }

    /// The same with files of the test's own in the site, by their names.
    ///
    /// # Errors
    /// As there.
    pub fn open_page_beside(
        self,
        name: &str,
        files: &[(&str, &str)],
        test: impl FnOnce(&mut Page) -> Result<()>,
    ) -> Result<()> {
        if skipped() {
            return Ok(());
        }
        let text = fs::read_to_string(required(SITE)?.join(name))?;
        let text = text.replace("<head>", "<head><script src=\"probe.js\"></script>");
        self.open_with((name, &text), files, test)
    }

    fn open_with(
        self,
        (name, text): (&str, &str),
        files: &[(&str, &str)],
        test: impl FnOnce(&mut Page) -> Result<()>,
    ) -> Result<()> {
        let Some([browser, driver]) = self.programs() else {
            eprintln!("{self:?} is left out: there is none");
            return Ok(());
        };
        let folder = paths::target().join("tmp").join(format!("{self:?}-{name}"));
        let own = [(name, text), ("probe.js", page::PROBE)];
        let site = own_site::make(folder, &[&own, files].concat())?;
        let session = self.session(&browser, &driver)?;
        let mut page = Page::on(session, site::start(&site)?, name)?;
        page.test(test)
    }

    fn programs(self) -> Option<[PathBuf; 2]> {
        let names = match self {
            Self::Firefox => FIREFOX,
            Self::WebKit => WEBKIT,
        };
        let [browser, driver] = names.map(|name| env::var_os(name).map(PathBuf::from));
        Some([browser?, driver?])
    }

    fn session(self, browser: &Path, driver: &Path) -> Result<Session> {
        let (driver, capabilities) = match self {
            Self::Firefox => (
                Driver::start_unseen(driver, &SYSTEM_ACCESS, false)?,
                json!({ "moz:firefoxOptions": { "binary": browser, "args": ["-headless"] } }),
            ),
            Self::WebKit => (
                Driver::start_unseen(driver, &[], true)?,
                json!({ "webkitgtk:browserOptions": { "binary": browser, "args": ["--automation"] } }),
            ),
        };
        let Value::Object(capabilities) = capabilities else {
            unreachable!("capabilities are an object");
        };
        let session = Session::connect(driver, capabilities, false).context("no session")?;
        session.run(async |client| client.set_window_size(1280, 900).await)?;
        Ok(session)
    }
}

impl Page {
    /// Zooms the page as Firefox's own menu does, and waits until it has come to rest.
    ///
    /// # Errors
    /// It is another browser, or the zoom does not come.
    pub fn zoom_in_firefox(&self, zoom: f64) -> Result<()> {
        self.session().run_in_firefox(
            "gBrowser.selectedBrowser.fullZoom = arguments[0]",
            vec![json!(zoom)],
        )?;
        self.until(
            &format!("the page is zoomed to {zoom}"),
            &format!("Math.abs(devicePixelRatio - {zoom}) < 0.01"),
        )?;
        self.rest()
    }
}
