//! The page on paper.

use anyhow::{Result, anyhow};
use fantoccini::wd::{PrintConfiguration, PrintSize};
use serde_json::json;

use super::page::Page;

impl Page {
    /// The page as a PDF.
    ///
    /// # Errors
    /// The browser refuses.
    pub fn print(&self, size: PrintSize) -> Result<Vec<u8>> {
        let paper = PrintConfiguration::builder().size(size).build();
        let paper = paper.map_err(|error| anyhow!("{error:?}"))?;
        self.session()
            .run(async |client| client.print(paper.clone()).await)
    }

    /// Lays the page out as for paper, or as for the screen.
    ///
    /// # Errors
    /// The browser refuses.
    pub fn lay_out_for_paper(&self, paper: bool) -> Result<()> {
        let mut media = self.view().media();
        media["media"] = json!(if paper { "print" } else { "" });
        self.session().cdp("Emulation.setEmulatedMedia", media)?;
        self.rest()
    }
}
