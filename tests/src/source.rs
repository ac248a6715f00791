//! A crate's source code as the architecture tests read it: each line with its code without comments and strings, and whether
//! it is test code.
//!
//! The source is read character by character, since a parser for the whole language would make the window's libraries build
//! twice.

use std::path::{Path, PathBuf};

/// One file of a crate.
#[derive(Debug)]
pub struct Source {
    /// Its path from the root of the repository, with slashes.
    pub path: String,
    /// Its lines.
    pub lines: Vec<Line>,
}

/// One line of a file.
#[derive(Debug)]
pub struct Line {
    /// The full line.
    pub text: String,
    /// The same with comments and string literals replaced by blanks.
    pub code: String,
    /// Whether it is in a test, or in code used only by tests.
    pub is_test: bool,
}

impl Source {
    /// The lines that are part of the program, numbered from 1.
    pub fn own(&self) -> impl Iterator<Item = (usize, &Line)> {
        (1..).zip(&self.lines).filter(|(_, line)| !line.is_test)
    }
}

/// The folder of the repository.
pub fn repository() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// Every file that is compiled into a crate in `crates` or into its unit tests, in the order of its modules.
///
/// # Panics
///
/// If a file cannot be read.
pub fn sources(name: &str) -> Vec<Source> {
    let folder = repository().join("crates").join(name).join("src");
    let mut found = Vec::new();
    for root in ["lib.rs", "main.rs"].map(|root| folder.join(root)) {
        if root.is_file() {
            read(&root, &folder, false, &mut found);
        }
    }
    found
}

/// Reads a file, and the files of its modules, which are in a folder.
fn read(path: &Path, folder: &Path, is_test: bool, found: &mut Vec<Source>) {
    let text = std::fs::read_to_string(path).expect("a source can be read");
    let from_root = path.strip_prefix(repository()).unwrap_or(path);
    let lines = lines(&text, is_test);
    let modules = lines.iter().map(|line| (module(&line.code), line.is_test));
    let modules: Vec<(Option<String>, bool)> = modules.collect();
    found.push(Source {
        path: from_root.to_string_lossy().replace('\\', "/"),
        lines,
    });
    for (module, is_test) in modules {
        let Some(module) = module else { continue };
        let files = [format!("{module}.rs"), format!("{module}/mod.rs")];
        let mut files = files.iter().map(|file| folder.join(file));
        let file = files.find(|file| file.is_file());
        let file = file.unwrap_or_else(|| panic!("{} has no {module}", path.display()));
        read(&file, &folder.join(module), is_test, found);
    }
}

/// The name of a module with its own file.
fn module(code: &str) -> Option<String> {
    let (before, name) = code.trim().strip_suffix(';')?.split_once("mod ")?;
    let is_plain = before.is_empty() || before.starts_with("pub");
    is_plain.then(|| name.to_owned())
}

/// The lines of a file; all are test code if the file is, otherwise those in its tests.
fn lines(text: &str, is_test: bool) -> Vec<Line> {
    let code = code(text);
    let for_tests = for_tests(&code);
    let mut from = 0;
    let lines = text.lines().zip(code.lines());
    lines
        .map(|(text, code)| {
            let start = from;
            from += code.len() + 1;
            Line {
                text: text.to_owned(),
                code: code.to_owned(),
                is_test: is_test
                    || for_tests
                        .iter()
                        .any(|part| part.start < from && start < part.end),
            }
        })
        .collect()
}

/// The text with comments and string literals replaced by blanks, with every line as long as before.
fn code(text: &str) -> String {
    let mut code = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let length = match first {
            '/' if rest.starts_with("//") => rest.find('\n').unwrap_or(rest.len()),
            '"' => quoted(rest),
            'r' if rest.starts_with("r\"")
                || rest.starts_with("r#") && !code.ends_with(in_word) =>
            {
                raw(rest)
            }
            '\'' => letter(rest),
            _ => 0,
        };
        if length == 0 {
            code.push(first);
            rest = &rest[first.len_utf8()..];
        } else {
            let (blank, after) = rest.split_at(length);
            code.extend(
                blank
                    .bytes()
                    .map(|byte| if byte == b'\n' { '\n' } else { ' ' }),
            );
            rest = after;
        }
    }
    code
}

fn in_word(sign: char) -> bool {
    sign.is_alphanumeric() || sign == '_'
}

/// The length of a string literal, including its quotes.
fn quoted(rest: &str) -> usize {
    let mut escaped = false;
    let end = rest.char_indices().skip(1).find(|(_, sign)| {
        let ends = *sign == '"' && !escaped;
        escaped = *sign == '\\' && !escaped;
        ends
    });
    end.map_or(rest.len(), |(at, _)| at + 1)
}

/// The length of a raw string literal; 0 for a name that begins with `r#`.
fn raw(rest: &str) -> usize {
    let hashes = rest[1..].bytes().take_while(|byte| *byte == b'#').count();
    let start = 2 + hashes;
    if rest.as_bytes().get(start - 1) != Some(&b'"') {
        return 0;
    }
    let end = format!("\"{}", "#".repeat(hashes));
    let body = &rest[start..];
    body.find(&end)
        .map_or(rest.len(), |at| start + at + end.len())
}

/// The length of a character literal; 0 for a lifetime.
fn letter(rest: &str) -> usize {
    let mut signs = rest.char_indices().skip(1);
    let first = signs.next().map(|(_, sign)| sign);
    match first {
        Some('\\') => rest[3..].find('\'').map_or(rest.len(), |at| at + 4),
        Some(_) => signs
            .next()
            .filter(|(_, sign)| *sign == '\'')
            .map_or(0, |(at, _)| at + 1),
        None => 0,
    }
}

/// The items after `#[cfg(test)]` and `#[test]`, each from its attribute to its end.
fn for_tests(code: &str) -> Vec<core::ops::Range<usize>> {
    let mut found = Vec::new();
    for mark in ["#[cfg(test)]", "#[test]"] {
        for (start, _) in code.match_indices(mark) {
            let end = start + mark.len();
            found.push(start..end + item(&code[end..]));
        }
    }
    found
}

/// The length of an item including the attributes before it: up to its closing brace or its semicolon.
fn item(code: &str) -> usize {
    let mut depth = 0_u32;
    let is_use = code.trim_start().starts_with("use ");
    for (at, sign) in code.char_indices() {
        match sign {
            '(' | '[' | '{' => depth += 1,
            ')' | ']' | '}' => depth = depth.saturating_sub(1),
            _ => {}
        }
        if depth == 0 && (sign == ';' || sign == '}' && !is_use) {
            return at + 1;
        }
    }
    code.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn own(text: &str) -> Vec<usize> {
        let source = Source {
            path: String::new(),
            lines: lines(text, false),
        };
        source.own().map(|(number, _)| number).collect()
    }

    #[test]
    fn test_code_is_left_out_and_code_after_it_is_not() {
        let text = "\
#[cfg(test)]
mod elsewhere;
mod here;
#[cfg(test)]
use some::{one, other};
/// Doc.
fn kept() {
    \"#[cfg(test)] {{{\";
}
impl Kept {
    #[cfg(test)]
    #[inline]
    /// A {.
    fn three() -> char {
        '{'
    }
    fn four<'a>(of: &'a str) {}
}
#[cfg(not(test))]
fn last() {}
#[cfg(test)]
mod tests {
    #[test]
    fn is_well() {}
}
fn after() {}
";
        assert_eq!(own(text), [3, 6, 7, 8, 9, 10, 17, 18, 19, 20, 26]);
    }

    #[test]
    fn comments_and_string_literals_are_blank_in_code() {
        let text = "a(\"b\\\"c\n// d\", 'e', '\\'', r#\"f\"g\"#, 'é') // h\nfor r#i in j { k::<'l>(\"\") }\n";
        let blank = code(text);
        let words: Vec<&str> = blank.split_whitespace().collect();
        assert_eq!(words.concat(), "a(,,,,)forr#iinj{k::<'l>()}");
        assert_eq!(blank.lines().count(), 3);
        assert_eq!(blank.len(), text.len());
    }

    #[test]
    fn modules_with_their_own_files_are_recognized() {
        assert_eq!(module("pub(crate) mod one;"), Some("one".to_owned()));
        assert_eq!(module("mod two {"), None);
        assert_eq!(module("let mod_three = 3;"), None);
    }
}
