//! An independent reader of iCalendar files, based only on RFC 5545: content lines, folding, escapes, components.

use std::collections::BTreeMap;

/// A component of a file: its properties, each once or several times, and the components within it.
#[derive(Debug, Clone, Default)]
pub struct IcalPart {
    /// Its name, such as VEVENT.
    pub name: String,
    /// Its properties by name, with their raw values, without parameters.
    pub properties: BTreeMap<String, Vec<String>>,
    /// The components within it.
    pub parts: Vec<IcalPart>,
}

impl IcalPart {
    /// Reads a file.
    ///
    /// # Errors
    /// The first line that violates the standard, and why.
    pub fn read(bytes: &[u8]) -> Result<Self, String> {
        let text = core::str::from_utf8(bytes).map_err(|error| error.to_string())?;
        let mut open: Vec<Self> = vec![Self::default()];
        for line in unfolded(text)? {
            let (name, value) = content(&line)?;
            match name.as_str() {
                "BEGIN" => open.push(Self {
                    name: value,
                    ..Self::default()
                }),
                "END" => {
                    let part = open.pop().filter(|part| part.name == value);
                    let part = part.ok_or_else(|| format!("{value} ends but did not begin"))?;
                    open.last_mut().ok_or("too many ends")?.parts.push(part);
                }
                _ => {
                    let part = open.last_mut().ok_or("a line outside")?;
                    part.properties.entry(name).or_default().push(value);
                }
            }
        }
        match open.as_slice() {
            [root] if root.parts.len() == 1 && root.properties.is_empty() => {
                Ok(root.parts[0].clone())
            }
            _ => Err("a file is one component that begins and ends".into()),
        }
    }

    /// The single raw value of a property.
    pub fn value(&self, name: &str) -> Option<&str> {
        match self.properties.get(name)?.as_slice() {
            [one] => Some(one),
            _ => None,
        }
    }

    /// The single value of a text property, with its escapes removed (3.3.11).
    pub fn text(&self, name: &str) -> Option<String> {
        let mut text = String::new();
        let mut letters = self.value(name)?.chars();
        while let Some(letter) = letters.next() {
            match letter {
                '\\' => text.push(match letters.next()? {
                    'n' | 'N' => '\n',
                    escaped @ ('\\' | ';' | ',') => escaped,
                    _ => return None,
                }),
                // Separators must be escaped in a text.
                ';' | ',' => return None,
                letter => text.push(letter),
            }
        }
        Some(text)
    }
}

/// The content lines, unfolded (3.1): each line ends in CR LF and has at most 75 octets.
fn unfolded(text: &str) -> Result<Vec<String>, String> {
    let body = text
        .strip_suffix("\r\n")
        .ok_or("the last line does not end in CR LF")?;
    let mut lines: Vec<String> = Vec::new();
    for line in body.split("\r\n") {
        if line.len() > 75 {
            return Err(format!("{} octets: {line}", line.len()));
        }
        if line.contains(['\r', '\n']) {
            return Err(format!("a bare line end: {line:?}"));
        }
        match line.strip_prefix([' ', '\t']) {
            Some(rest) => lines
                .last_mut()
                .ok_or("a fold before any line")?
                .push_str(rest),
            None => lines.push(line.into()),
        }
    }
    Ok(lines)
}

/// The name and value of a content line: the value begins at the first colon outside quotes.
fn content(line: &str) -> Result<(String, String), String> {
    let mut is_quoted = false;
    let colon = line.char_indices().find(|(_, letter)| {
        is_quoted ^= *letter == '"';
        *letter == ':' && !is_quoted
    });
    let (at, _) = colon.ok_or_else(|| format!("no value: {line}"))?;
    let (head, value) = (&line[..at], &line[at + 1..]);
    let name = head.split(';').next().unwrap_or_default();
    let is_name = !name.is_empty()
        && name
            .bytes()
            .all(|byte| byte.is_ascii_alphanumeric() || byte == b'-');
    if !is_name {
        return Err(format!("no name: {line}"));
    }
    Ok((name.to_ascii_uppercase(), value.into()))
}
