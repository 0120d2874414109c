//! `cargo xtask dist`: the static site, ready for any host and any sub-path.
//!
//! The folder holds the page from `www/`, the engine in `engine/`, the editor in `editor/`, the scenarios with
//! their list in `scenarios/`, the sentences in `words/`, and the licence. Nothing in it refers to an absolute address.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};

use crate::bundle::Bundler;
use crate::engine::Engine;
use crate::wasm_toolchain::WasmToolchain;
use crate::{bundle, editor, engine, offline, paths, scenario_index, sheets, size, words};

const ENGINE: &str = "engine";
const EDITOR: &str = "editor";
const SCENARIOS: &str = "scenarios";
const WORDS: &str = "words";

/// How the page's modules are shipped.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Modules {
    /// As one file, where there is a bundler.
    One,
    /// As they are written, to look into them in the browser.
    Separate,
}

/// Builds the site into `out`, by default `dist` in the repository, and prints what it weighs.
///
/// # Errors
/// See [`build`].
pub fn run(out: Option<&Path>) -> Result<()> {
    let out = match out {
        Some(folder) => std::env::current_dir()?.join(folder),
        None => paths::root().join("dist"),
    };
    build(&WasmToolchain::set_up()?, &out, Modules::One)?.print();
    println!("The site is in {}", out.display());
    Ok(())
}

/// What the heavy files of a site weigh.
#[derive(Debug)]
pub struct Weights(Vec<Weight>);

#[derive(Debug)]
struct Weight {
    file: String,
    sizes: size::Sizes,
    limit: usize,
}

impl Weights {
    /// Prints a line for each file.
    pub fn print(&self) {
        for Weight { file, sizes, .. } in &self.0 {
            println!("    {file}: {sizes}");
        }
    }

    /// Whether each keeps to its limit.
    ///
    /// # Errors
    /// One does not.
    pub fn check(&self) -> Result<()> {
        self.0
            .iter()
            .try_for_each(|Weight { file, sizes, limit }| sizes.check(file, *limit))
    }
}

/// Builds the site into `out`, replacing an earlier one, and weighs engines and editor.
///
/// # Errors
/// `out` holds something else, a source is missing or does not compile, or a file cannot be written.
pub fn build(toolchain: &WasmToolchain, out: &Path, modules: Modules) -> Result<Weights> {
    check_replaceable(out)?;
    // The process number keeps two builds at the same time apart.
    let staging = paths::target().join(format!("site-staging-{}", std::process::id()));
    // The earlier site stays as it was until the new one is complete.
    let built = fill(toolchain, &staging, modules).and_then(|has_editor| {
        put_in_place(&staging, out)?;
        Ok(has_editor)
    });
    clear(&staging)?;
    let has_editor = built?;
    let engines = engine::ALL.map(|engine| {
        let path = engine_file(out, &engine);
        (engine.file(), path, engine.limit)
    });
    let editor = (
        editor::FILE.to_owned(),
        out.join(editor::FILE),
        editor::LIMIT,
    );
    let files = engines.into_iter().chain(has_editor.then_some(editor));
    let weights = files.map(|(file, path, limit)| {
        let sizes = size::measure(&path)?;
        Ok(Weight { file, sizes, limit })
    });
    Ok(Weights(weights.collect::<Result<_>>()?))
}

/// Says whether the site has an editor.
fn fill(toolchain: &WasmToolchain, folder: &Path, modules: Modules) -> Result<bool> {
    clear(folder)?;
    engine::build(toolchain, &folder.join(ENGINE))?;
    assemble(paths::root(), folder)?;
    let bundler = Bundler::find();
    match modules {
        Modules::One => bundle::make_one(folder, bundler.as_ref())?,
        Modules::Separate => bundle::preload_all(folder)?,
    }
    let has_editor = editor::put_in(folder, bundler.as_ref())?;
    offline::list_files(folder)?;
    Ok(has_editor)
}

/// Moves the site at once where it can, so that no half-written one is ever seen.
fn put_in_place(staging: &Path, out: &Path) -> Result<()> {
    clear(out)?;
    if let Some(parent) = out.parent() {
        create(parent)?;
    }
    // Moving fails when the two are on different disks.
    fs::rename(staging, out).or_else(|_| copy_folder(staging, out))
}

/// A compiled engine of the site in `folder`.
fn engine_file(folder: &Path, engine: &Engine) -> PathBuf {
    folder.join(ENGINE).join(engine.file())
}

/// Copies everything that need not be built from the repository at `root` into `out`.
fn assemble(root: &Path, out: &Path) -> Result<()> {
    let www = root.join("www");
    if !www.join("index.html").is_file() {
        bail!(
            "{} is missing: there is no page to build",
            www.join("index.html").display()
        );
    }
    for name in [ENGINE, EDITOR, SCENARIOS, WORDS] {
        if www.join(name).exists() {
            bail!(
                "{} is in the way of what the build writes there",
                www.join(name).display()
            );
        }
    }
    copy_folder(&www, out)?;
    sheets::join(&out.join("css"))?;

    let files = scenario_index::files(&root.join(SCENARIOS))?;
    let folder = out.join(SCENARIOS);
    create(&folder)?;
    for file in &files {
        copy_into(file, &folder)?;
    }
    fs::write(
        folder.join(scenario_index::FILE),
        scenario_index::list(&files)?,
    )?;

    let exercises = root.join(SCENARIOS).join(scenario_index::EXERCISES);
    if exercises.is_dir() {
        copy_folder(&exercises, &folder.join(scenario_index::EXERCISES))?;
    }

    let folder = out.join(WORDS);
    create(&folder)?;
    for file in words::files(&root.join("core").join(WORDS))? {
        let name = file.file_name().context("a catalogue has a name")?;
        fs::write(folder.join(name), words::messages(&file)?)?;
    }
    copy_folder(
        &root.join(SCENARIOS).join(WORDS),
        &out.join(SCENARIOS).join(WORDS),
    )?;

    for entry in fs::read_dir(root)? {
        let entry = entry?;
        if entry.file_name().to_string_lossy().starts_with("LICENSE") {
            copy_into(&entry.path(), out)?;
        }
    }
    Ok(())
}

/// A folder may be replaced when it is not there, empty, or an earlier build of ours.
fn check_replaceable(out: &Path) -> Result<()> {
    let Ok(mut entries) = fs::read_dir(out) else {
        if out.exists() {
            bail!("{} is not a folder", out.display());
        }
        return Ok(());
    };
    if entries.next().is_some() && !engine_file(out, &engine::FIRST).is_file() {
        bail!(
            "{} holds something that is not an earlier build: choose an empty or a new folder",
            out.display()
        );
    }
    Ok(())
}

fn clear(folder: &Path) -> Result<()> {
    if folder.exists() {
        fs::remove_dir_all(folder)
            .with_context(|| format!("cannot remove {}", folder.display()))?;
    }
    Ok(())
}

fn create(folder: &Path) -> Result<()> {
    fs::create_dir_all(folder).with_context(|| format!("cannot create {}", folder.display()))
}

/// Copies a folder and all in it but hidden files, which editors and systems leave behind.
fn copy_folder(from: &Path, to: &Path) -> Result<()> {
    create(to)?;
    let entries =
        fs::read_dir(from).with_context(|| format!("cannot read the folder {}", from.display()))?;
    for entry in entries {
        let entry = entry?;
        let path = entry.path();
        if entry.file_name().to_string_lossy().starts_with('.') {
            continue;
        }
        if path.is_dir() {
            copy_folder(&path, &to.join(entry.file_name()))?;
        } else {
            copy_into(&path, to)?;
        }
    }
    Ok(())
}

fn copy_into(file: &Path, folder: &Path) -> Result<()> {
    let name = file
        .file_name()
        .with_context(|| format!("{} is no file", file.display()))?;
    fs::copy(file, folder.join(name))
        .with_context(|| format!("cannot copy {} to {}", file.display(), folder.display()))?;
    Ok(())
}

/// An empty folder for one unit test.
#[cfg(test)]
pub(crate) fn scratch(name: &str) -> Result<PathBuf> {
    let folder = paths::target().join("xtask-scratch").join(name);
    clear(&folder)?;
    create(&folder)?;
    Ok(folder)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A repository with a page, a scenario, its schema, a sentence and a licence.
    fn repository(name: &str) -> Result<PathBuf> {
        let root = scratch(name)?;
        for folder in [
            "www/css",
            "scenarios/bad",
            "scenarios/exercises",
            "scenarios/words",
            "core/words",
        ] {
            create(&root.join(folder))?;
        }
        let files = [
            ("www/index.html", "page"),
            ("www/css/page.css", "css"),
            ("www/css/element.css", "@import \"answer.css\";"),
            ("www/css/answer.css", "p {}"),
            ("www/css/panels.css", ""),
            ("www/.hidden", ""),
            ("scenarios/one.json", r#"{"name": "One"}"#),
            ("scenarios/schema.json", "{}"),
            ("scenarios/bad/cut.json", "{"),
            ("scenarios/exercises/one.json", "{}"),
            ("scenarios/words/de.json", r#"{"One": "Eins"}"#),
            ("core/words/en.ftl", "hello = Hello\n"),
            ("core/words/de.ftl", "hello = Hallo\n"),
            ("LICENSE-MIT", "licence"),
            ("README.md", "text"),
        ];
        for (file, text) in files {
            fs::write(root.join(file), text)?;
        }
        Ok(root)
    }

    fn files_below(folder: &Path, above: &str, found: &mut Vec<String>) -> Result<()> {
        for entry in fs::read_dir(folder)? {
            let entry = entry?;
            let name = format!("{above}{}", entry.file_name().to_string_lossy());
            if entry.path().is_dir() {
                files_below(&entry.path(), &format!("{name}/"), found)?;
            } else {
                found.push(name);
            }
        }
        found.sort();
        Ok(())
    }

    #[test]
    fn the_site_holds_page_scenarios_list_words_and_licence_and_nothing_else() -> Result<()> {
        let root = repository("assemble")?;
        let out = scratch("assembled")?;
        assemble(&root, &out)?;
        let mut found = Vec::new();
        files_below(&out, "", &mut found)?;
        let expected = [
            "LICENSE-MIT",
            "css/element.css",
            "css/page.css",
            "css/panels.css",
            "index.html",
            "scenarios/exercises/one.json",
            "scenarios/index.json",
            "scenarios/one.json",
            "scenarios/schema.json",
            "scenarios/words/de.json",
            "words/de.ftl",
            "words/en.ftl",
        ];
        assert_eq!(found, expected);
        Ok(())
    }

    #[test]
    fn a_missing_page_and_a_folder_in_the_way_are_named() -> Result<()> {
        let root = repository("in-the-way")?;
        create(&root.join("www/engine"))?;
        let out = scratch("in-the-way-out")?;
        let message = assemble(&root, &out).map_err(|error| error.to_string());
        assert!(message.is_err_and(|message| message.contains("engine")));

        fs::remove_file(root.join("www/index.html"))?;
        let message = assemble(&root, &out).map_err(|error| error.to_string());
        assert!(message.is_err_and(|message| message.contains("index.html")));
        Ok(())
    }

    #[test]
    fn only_our_own_output_is_replaced() -> Result<()> {
        let out = scratch("replace")?;
        assert!(check_replaceable(&out).is_ok(), "an empty folder");
        assert!(check_replaceable(&out.join("new")).is_ok(), "a new folder");
        fs::write(out.join("thesis.txt"), "years of work")?;
        assert!(check_replaceable(&out).is_err(), "somebody's folder");
        assert!(
            check_replaceable(&out.join("thesis.txt")).is_err(),
            "a file"
        );
        create(&out.join(ENGINE))?;
        fs::write(engine_file(&out, &engine::FIRST), "")?;
        assert!(check_replaceable(&out).is_ok(), "an earlier build");
        Ok(())
    }
}
