//! Pictures of pages, for people to look at. No test compares with them.

use std::fs;
use std::path::PathBuf;
use std::thread;

use anyhow::{Context, Result};
use serde_json::Value;

use super::page::Page;
use super::session::Session;
use super::view::View;

/// A picture of the whole page, however long it is.
pub(super) fn keep_whole(page: &Page, session: &Session, name: &str) -> Result<()> {
    let view = page.view();
    let height = page.get("document.documentElement.scrollHeight", Value::Null)?;
    View { height, ..view }.apply(session)?;
    page.rest()?;
    keep(session, name)?;
    view.apply(session)
}

/// A picture of what is on screen, named after the running test.
pub(super) fn keep_failure(session: &Session) -> Result<String> {
    let name = thread::current()
        .name()
        .unwrap_or("failure")
        .replace("::", "-");
    keep(session, &format!("failed-{name}"))
}

fn keep(session: &Session, name: &str) -> Result<String> {
    let folder = folder();
    fs::create_dir_all(&folder).with_context(|| format!("cannot create {}", folder.display()))?;
    let path = folder.join(format!("{name}.png"));
    let picture = session.run(async |client| client.screenshot().await)?;
    fs::write(&path, picture).with_context(|| format!("cannot write {}", path.display()))?;
    Ok(path.display().to_string())
}

fn folder() -> PathBuf {
    xtask::paths::target().join("shots")
}
