//! The local server, asked as a browser asks it.

use std::io::{Read, Write};
use std::net::TcpStream;
use std::path::PathBuf;

use anyhow::{Context, Result};
use xtask::site::{self, CONTENT_SECURITY_POLICY, Site};

struct Answer {
    status: u16,
    headers: Vec<(String, String)>,
    body: String,
}

impl Answer {
    fn header(&self, name: &str) -> Option<&str> {
        self.headers
            .iter()
            .find(|(key, _)| key == name)
            .map(|(_, value)| value.as_str())
    }
}

fn folder(name: &str) -> Result<PathBuf> {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::create_dir_all(folder.join("engine"))?;
    let files = [
        ("index.html", "<!doctype html><title>Page</title>"),
        ("page.js", "export {};"),
        ("page.css", "body {}"),
        ("picture.svg", "<svg xmlns='http://www.w3.org/2000/svg'/>"),
        ("engine/engine.wasm", "\0asm"),
        ("one.json", "{}"),
    ];
    for (file, text) in files {
        std::fs::write(folder.join(file), text)?;
    }
    Ok(folder)
}

/// The answer to a request for an absolute path.
fn get(site: &Site, path: &str) -> Result<Answer> {
    let host = host(site)?;
    let mut stream = TcpStream::connect(host)?;
    write!(
        stream,
        "GET {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n"
    )?;
    let mut text = String::new();
    stream.read_to_string(&mut text)?;
    let (head, body) = text.split_once("\r\n\r\n").context("no end of headers")?;
    let mut lines = head.lines();
    let status = lines
        .next()
        .and_then(|line| line.split(' ').nth(1))
        .context("no status")?;
    let headers = lines
        .filter_map(|line| line.split_once(": "))
        .map(|(name, value)| (name.to_ascii_lowercase(), value.to_owned()))
        .collect();
    Ok(Answer {
        status: status.parse()?,
        headers,
        body: body.to_owned(),
    })
}

fn host(site: &Site) -> Result<&str> {
    let rest = site.address().strip_prefix("http://").context("not http")?;
    rest.split('/').next().context("no host")
}

#[test]
fn files_have_the_types_browsers_insist_on() -> Result<()> {
    let site = site::start(&folder("types")?)?;
    let rows = [
        ("/", "text/html"),
        ("/index.html", "text/html"),
        ("/page.js", "text/javascript"),
        ("/page.css", "text/css"),
        ("/picture.svg", "image/svg+xml"),
        ("/engine/engine.wasm", "application/wasm"),
        ("/one.json", "application/json"),
    ];
    for (path, expected) in rows {
        let answer = get(&site, path)?;
        assert_eq!(answer.status, 200, "{path}");
        let found = answer.header("content-type").unwrap_or("none");
        assert_eq!(found.split(';').next(), Some(expected), "{path}: {found}");
    }
    Ok(())
}

#[test]
fn every_answer_carries_the_strict_headers() -> Result<()> {
    let site = site::start(&folder("headers")?)?;
    for path in ["/", "/page.js", "/missing"] {
        let answer = get(&site, path)?;
        let policy = answer.header("content-security-policy");
        assert_eq!(policy, Some(CONTENT_SECURITY_POLICY), "{path}");
        assert_eq!(
            answer.header("x-content-type-options"),
            Some("nosniff"),
            "{path}"
        );
        assert_eq!(answer.header("cache-control"), Some("no-cache"), "{path}");
        let allowed = answer.header("access-control-allow-origin");
        assert_eq!(allowed, Some("*"), "{path}");
    }
    for forbidden in ["unsafe-inline", "'unsafe-eval'", "http:", "https:", "*"] {
        assert!(!CONTENT_SECURITY_POLICY.contains(forbidden), "{forbidden}");
    }
    Ok(())
}

#[test]
fn the_page_states_the_policy_that_is_sent() -> Result<()> {
    let page = xtask::paths::root().join("www").join("index.html");
    let text = std::fs::read_to_string(&page).context("cannot read www/index.html")?;
    let stated = text
        .split_once("http-equiv=\"Content-Security-Policy\"")
        .and_then(|(_, rest)| rest.split_once("content=\""))
        .and_then(|(_, rest)| rest.split_once('"'))
        .map(|(policy, _)| policy.split_whitespace().collect::<Vec<_>>().join(" "));
    assert_eq!(stated.as_deref(), Some(CONTENT_SECURITY_POLICY));
    Ok(())
}

#[test]
fn under_a_sub_path_only_that_path_answers() -> Result<()> {
    let site = site::start_under(&folder("sub-path")?, "any/sub/path")?;
    assert!(
        site.address().ends_with("/any/sub/path/"),
        "{}",
        site.address()
    );
    let rows = [
        ("/any/sub/path/", 200),
        ("/any/sub/path/page.js", 200),
        ("/any/sub/path/engine/engine.wasm", 200),
        ("/any/sub/path/missing", 404),
        ("/page.js", 404),
        ("/", 404),
    ];
    for (path, expected) in rows {
        assert_eq!(get(&site, path)?.status, expected, "{path}");
    }
    assert!(
        get(&site, "/any/sub/path/")?
            .body
            .contains("<title>Page</title>")
    );
    Ok(())
}

#[test]
fn nothing_outside_the_folder_is_served() -> Result<()> {
    let folder = folder("outside")?;
    std::fs::write(folder.join("secret.txt"), "secret")?;
    let site = site::start(&folder.join("engine"))?;
    for path in [
        "/../secret.txt",
        "/%2e%2e/secret.txt",
        "/..%2fsecret.txt",
        "//secret.txt",
    ] {
        let answer = get(&site, path)?;
        assert_ne!(answer.status, 200, "{path}");
        assert!(!answer.body.contains("secret"), "{path}");
    }
    Ok(())
}

#[test]
fn two_sites_run_side_by_side_and_stop_when_dropped() -> Result<()> {
    let folder = folder("two")?;
    let (first, second) = (site::start(&folder)?, site::start(&folder)?);
    assert_ne!(first.address(), second.address());
    let host_of_first = host(&first)?.to_owned();
    // A connection a browser keeps open must not keep the server alive.
    let _kept_open = TcpStream::connect(&host_of_first)?;
    drop(first);
    assert!(TcpStream::connect(&host_of_first).is_err());
    assert_eq!(get(&second, "/")?.status, 200);
    Ok(())
}

#[test]
fn a_missing_folder_is_named() {
    match site::start(&PathBuf::from("no/such/folder")) {
        Ok(site) => panic!("served at {}", site.address()),
        Err(error) => assert!(error.to_string().contains("no/such/folder"), "{error:#}"),
    }
}
