//! The built page over HTTP, to this machine alone.
//!
//! Files and "no such file", nothing else: no directory lists, no ranges, no keep-alive.

use std::fs;
use std::io::{self, BufRead, BufReader, Read, Write};
use std::net::{TcpListener, TcpStream};
use std::path::{Component, Path, PathBuf};
use std::thread;
use std::time::Duration;

/// What the page may do and who may frame it, one header a line; any host can send the same.
const HEADERS: &str = include_str!("../../../web/headers.txt");
const LONGEST_REQUEST_BYTES: u64 = 16_384;
/// Browsers open connections ahead of need: those go away by themselves.
const PATIENCE: Duration = Duration::from_secs(30);

/// Serves the files of `folder` to every caller of `listener` until the process ends; returns at once.
pub(crate) fn serve(listener: TcpListener, folder: PathBuf) {
    thread::spawn(move || {
        for caller in listener.incoming().flatten() {
            let folder = folder.clone();
            // A caller that hangs up is no news.
            thread::spawn(move || answer(caller, &folder));
        }
    });
}

fn answer(caller: TcpStream, folder: &Path) -> io::Result<()> {
    caller.set_read_timeout(Some(PATIENCE))?;
    let mut lines = BufReader::new(&caller).take(LONGEST_REQUEST_BYTES).lines();
    let Some(request) = lines.next().transpose()? else { return Ok(()) };
    while lines.next().transpose()?.is_some_and(|header| !header.is_empty()) {}
    (&caller).write_all(&reply(&request, folder))
}

/// The whole answer to the first line of a request.
fn reply(request: &str, folder: &Path) -> Vec<u8> {
    let mut words = request.split(' ');
    let (verb, address) = (words.next().unwrap_or_default(), words.next().unwrap_or_default());
    if verb != "GET" && verb != "HEAD" {
        return message("405 Method Not Allowed", "text/plain; charset=utf-8", b"only GET and HEAD\n", verb);
    }
    let found = file_for(address, folder).and_then(|file| Some((content_type(&file), fs::read(&file).ok()?)));
    match found {
        Some((kind, body)) => message("200 OK", kind, &body, verb),
        None => message("404 Not Found", "text/plain; charset=utf-8", b"no such file\n", verb),
    }
}

/// `no-cache`: the page of the next build shows at the next load.
fn message(status: &str, kind: &str, body: &[u8], verb: &str) -> Vec<u8> {
    let policy = HEADERS.lines().map(|line| format!("{line}\r\n")).collect::<String>();
    let head = format!(
        "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Length: {}\r\nCache-Control: no-cache\r\n{policy}Connection: close\r\n\r\n",
        body.len()
    );
    let body = if verb == "HEAD" { &[][..] } else { body };
    [head.as_bytes(), body].concat()
}

/// The file behind an address; `None` when it points outside the folder.
fn file_for(address: &str, folder: &Path) -> Option<PathBuf> {
    let path = address.split(['?', '#']).next()?.strip_prefix('/')?;
    let path = Path::new(if path.is_empty() { "index.html" } else { path });
    path.components().all(|part| matches!(part, Component::Normal(_))).then(|| folder.join(path))
}

fn content_type(file: &Path) -> &'static str {
    match file.extension().and_then(|ending| ending.to_str()) {
        Some("html") => "text/html; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("wasm") => "application/wasm",
        Some("css") => "text/css; charset=utf-8",
        Some("json") => "application/json; charset=utf-8",
        Some("webmanifest") => "application/manifest+json; charset=utf-8",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        Some("ico") => "image/x-icon",
        Some("txt") => "text/plain; charset=utf-8",
        Some("woff2") => "font/woff2",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::{HEADERS, file_for, reply};
    use std::path::Path;

    #[test]
    fn an_address_names_a_file_inside_the_folder() {
        let folder = Path::new("dist");
        let page = Some(folder.join("index.html"));
        assert_eq!(file_for("/", folder), page);
        assert_eq!(file_for("/?plan=1#x", folder), page);
        assert_eq!(file_for("/panels/card.js", folder), Some(folder.join("panels/card.js")));
        assert_eq!(file_for("/../Cargo.toml", folder), None);
        assert_eq!(file_for("//etc/hosts", folder), None);
        assert_eq!(file_for("index.html", folder), None);
    }

    #[test]
    fn every_answer_carries_the_policy_and_the_page_says_the_same_of_itself() {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR"));
        for request in ["GET /Cargo.toml HTTP/1.1", "GET /none HTTP/1.1"] {
            let answer = String::from_utf8_lossy(&reply(request, folder)).into_owned();
            for header in HEADERS.lines() {
                assert!(answer.contains(&format!("\r\n{header}\r\n")), "{request}: {header}");
            }
        }
        let (_, policy) = HEADERS.lines().next().and_then(|line| line.split_once(": ")).unwrap();
        // Who may frame a page can only be said in a header.
        let own = policy.strip_suffix("; frame-ancestors 'none'").unwrap();
        let page = include_str!("../../../web/index.html");
        assert!(include_str!("../../../README.md").contains(HEADERS), "README gives the same headers to copy");
        assert!(page.contains(&format!("<meta http-equiv=\"Content-Security-Policy\" content=\"{own}\">")), "{own}");
    }

    #[test]
    fn a_file_comes_with_its_type_and_length_and_a_missing_one_is_said_to_be_missing() {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR"));
        let manifest = include_bytes!("../Cargo.toml");
        let found = reply("GET /Cargo.toml HTTP/1.1", folder);
        let head = String::from_utf8_lossy(&found);
        assert!(head.starts_with("HTTP/1.1 200 OK\r\n"), "{head}");
        assert!(head.contains(&format!("\r\nContent-Length: {}\r\n", manifest.len())), "{head}");
        assert!(found.ends_with(manifest));
        assert!(reply("HEAD /Cargo.toml HTTP/1.1", folder).ends_with(b"\r\n\r\n"));
        assert!(reply("GET /no-such-file HTTP/1.1", folder).starts_with(b"HTTP/1.1 404 "));
        assert!(reply("POST / HTTP/1.1", folder).starts_with(b"HTTP/1.1 405 "));
    }
}
