//! What comes in, message by message: one that is no JSON, no message, or larger
//! than any notebook is dropped, and a request that is answered with the error
//! for it is put in its place.
//!
//! The library would stop reading at the first such message. What a sound
//! message asks is not looked at.

use serde::Deserialize;
use serde_json::Value;
use snell_finding::Limit;
use std::pin::Pin;
use std::task::{Context, Poll};
use tokio::io::{AsyncRead, ReadBuf};

/// The largest message that is read: several times the largest text that is, escaped.
const LARGEST: u64 = Limit::Message.most();

/// Longer headers are none.
const LONGEST_HEADER: usize = 4096;

/// JSON that is nested deeper is not read; the library's bound is 128.
const DEEPEST: usize = Limit::MessageDepth.count();

/// The method that stands for a message that is no JSON.
pub const UNREADABLE: &str = "snell/unreadable";
/// The method that stands for JSON that is no message.
pub const NO_MESSAGE: &str = "snell/no-message";

/// A reader of whole, sound messages.
pub fn checked<R>(inner: R) -> Checked<R> {
    Checked {
        inner,
        state: State::Header(Vec::new()),
        ready: Vec::new(),
        given: 0,
    }
}

/// See [`checked`].
pub struct Checked<R> {
    inner: R,
    state: State,
    /// Bytes to hand on, and how many of them were.
    ready: Vec<u8>,
    given: usize,
}

enum State {
    Header(Vec<u8>),
    /// A body, and how many of its bytes are still to come.
    Body(Vec<u8>, usize),
    /// Bytes still to drop.
    Dropped(u64),
}

/// What must hold of a message for the library to read it.
#[derive(Deserialize)]
struct Message {
    jsonrpc: String,
    #[serde(default, rename = "method")]
    _method: Option<String>,
    #[serde(default, rename = "id")]
    _id: Option<Id>,
}

#[derive(Deserialize)]
#[serde(untagged)]
enum Id {
    Number(#[expect(dead_code, reason = "only its kind counts")] i64),
    Word(#[expect(dead_code, reason = "only its kind counts")] String),
}

impl<R> Checked<R> {
    /// Takes in bytes and puts those to hand on into `ready`.
    fn take(&mut self, mut bytes: &[u8]) {
        while !bytes.is_empty() {
            match &mut self.state {
                State::Body(body, left) => {
                    let count = bytes.len().min(*left);
                    body.extend_from_slice(&bytes[..count]);
                    *left -= count;
                    bytes = &bytes[count..];
                    if *left == 0 {
                        let body = std::mem::take(body);
                        self.state = State::Header(Vec::new());
                        self.hand_on(&body);
                    }
                }
                State::Dropped(left) => {
                    let count = (bytes.len() as u64).min(*left);
                    *left -= count;
                    bytes = &bytes[count as usize..];
                    if *left == 0 {
                        self.state = State::Header(Vec::new());
                    }
                }
                State::Header(header) => {
                    header.push(bytes[0]);
                    bytes = &bytes[1..];
                    if header.ends_with(b"\r\n\r\n") || header.len() > LONGEST_HEADER {
                        let length = length(header);
                        self.state = State::Header(Vec::new());
                        self.open(length);
                    }
                }
            }
        }
    }

    fn open(&mut self, length: Option<u64>) {
        match length {
            Some(0) => {}
            Some(length) if length > LARGEST => {
                self.stand_in(UNREADABLE);
                self.state = State::Dropped(length);
            }
            Some(length) => self.state = State::Body(Vec::new(), length as usize),
            // Without a length nothing can be made of what follows but to look for the next header.
            None => self.stand_in(UNREADABLE),
        }
    }

    fn hand_on(&mut self, body: &[u8]) {
        // Parts that are passed over below are read by the library, which would stop at a letter or number that is none.
        if serde_json::from_slice::<Value>(body).is_err() {
            return self.stand_in(UNREADABLE);
        }
        match serde_json::from_slice::<Message>(body) {
            Ok(_) if is_too_deep(body) => self.stand_in(UNREADABLE),
            Ok(message) if message.jsonrpc == "2.0" => self.push(body),
            Err(error) if !error.is_data() => self.stand_in(UNREADABLE),
            _ => self.stand_in(NO_MESSAGE),
        }
    }

    /// A request that is answered as what came would have been.
    fn stand_in(&mut self, method: &str) {
        self.push(format!("{{\"jsonrpc\":\"2.0\",\"id\":null,\"method\":\"{method}\"}}").as_bytes());
    }

    fn push(&mut self, body: &[u8]) {
        let header = format!("Content-Length: {}\r\n\r\n", body.len());
        self.ready.extend_from_slice(header.as_bytes());
        self.ready.extend_from_slice(body);
    }
}

/// Whether JSON is nested too deep.
fn is_too_deep(json: &[u8]) -> bool {
    let (mut depth, mut quoted, mut escaped) = (0_usize, false, false);
    json.iter().any(|byte| {
        match byte {
            _ if escaped => escaped = false,
            b'\\' if quoted => escaped = true,
            b'"' => quoted = !quoted,
            b'[' | b'{' if !quoted => depth += 1,
            b']' | b'}' if !quoted => depth = depth.saturating_sub(1),
            _ => {}
        }
        depth > DEEPEST
    })
}

/// The length that a header tells.
fn length(header: &[u8]) -> Option<u64> {
    const WORD: &str = "content-length:";
    let header = String::from_utf8_lossy(header).to_ascii_lowercase();
    let told = header
        .lines()
        .rev()
        .find_map(|line| Some(&line[line.rfind(WORD)? + WORD.len()..]))?;
    told.trim().parse().ok()
}

impl<R: AsyncRead + Unpin> AsyncRead for Checked<R> {
    fn poll_read(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        out: &mut ReadBuf<'_>,
    ) -> Poll<std::io::Result<()>> {
        loop {
            if self.given < self.ready.len() {
                let count = out.remaining().min(self.ready.len() - self.given);
                let from = self.given;
                out.put_slice(&self.ready[from..from + count]);
                self.given += count;
                if self.given == self.ready.len() {
                    self.ready.clear();
                    self.given = 0;
                }
                return Poll::Ready(Ok(()));
            }
            let mut bytes = [0; 16 * 1024];
            let mut buffer = ReadBuf::new(&mut bytes);
            match Pin::new(&mut self.inner).poll_read(context, &mut buffer) {
                Poll::Ready(Ok(())) if !buffer.filled().is_empty() => {
                    let filled = buffer.filled().to_vec();
                    self.take(&filled);
                }
                other => return other,
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn through(input: &[u8]) -> String {
        let mut checked = checked(());
        // However it is cut, the same comes out.
        for piece in input.chunks(7) {
            checked.take(piece);
        }
        String::from_utf8(checked.ready).expect("what was put in is text")
    }

    fn framed(body: &str) -> String {
        format!("Content-Length: {}\r\n\r\n{body}", body.len())
    }

    fn stands_in(method: &str) -> String {
        let mut checked = checked(());
        checked.stand_in(method);
        String::from_utf8(checked.ready).expect("it is text")
    }

    const SOUND: &str = r#"{"jsonrpc":"2.0","id":"a","method":"b","params":{"c":[1]}}"#;

    #[test]
    fn sound_messages_pass_as_they_are() {
        let answer = r#"{"jsonrpc":"2.0","id":1,"result":null}"#;
        let both = framed(SOUND) + &framed(answer);
        assert_eq!(through(both.as_bytes()), both);
        let typed = format!("Content-Type: x; charset=latin\r\n{}", framed(SOUND));
        assert_eq!(through(typed.as_bytes()), framed(SOUND));
        assert_eq!(through((framed("") + &framed(SOUND)).as_bytes()), framed(SOUND));
    }

    #[test]
    fn what_is_none_is_told_and_costs_no_other() {
        let cases = [
            (framed("{\"jsonrpc\":"), UNREADABLE),
            (framed("\u{1f3a3}"), UNREADABLE),
            ("Foo: 3\r\n\r\n".to_owned(), UNREADABLE),
            ("Content-Length: no\r\n\r\n".to_owned(), UNREADABLE),
            (framed("[]"), NO_MESSAGE),
            (framed("42"), NO_MESSAGE),
            (framed(r#"{"jsonrpc":"1.0","method":"a"}"#), NO_MESSAGE),
            (framed(r#"{"jsonrpc":"2.0","method":3}"#), NO_MESSAGE),
            (framed(r#"{"jsonrpc":"2.0","id":{},"method":"a"}"#), NO_MESSAGE),
        ];
        for (case, method) in cases {
            let told = through((case.clone() + &framed(SOUND)).as_bytes());
            assert_eq!(told, stands_in(method) + &framed(SOUND), "{case}");
        }
        let garbage = format!("garbage {}", framed(SOUND));
        assert_eq!(through(garbage.as_bytes()), framed(SOUND));
    }

    /// Where what is wrong stands in a part that only the library reads.
    #[test]
    fn letters_and_numbers_that_are_none_are_told_wherever_they_stand() {
        let bodies: [&[u8]; 3] = [
            b"{\"jsonrpc\":\"2.0\",\"id\":1,\"method\":\"a\",\"params\":{\"b\xA7\":{}}}",
            br#"{"jsonrpc":"2.0","id":1,"method":"a","params":{"b":"\ud800"}}"#,
            br#"{"jsonrpc":"2.0","id":1,"method":"a","params":{"b":1e999}}"#,
        ];
        for body in bodies {
            let mut sent = format!("Content-Length: {}\r\n\r\n", body.len()).into_bytes();
            sent.extend_from_slice(body);
            sent.extend_from_slice(framed(SOUND).as_bytes());
            let told = through(&sent);
            assert_eq!(
                told,
                stands_in(UNREADABLE) + &framed(SOUND),
                "{}",
                body.escape_ascii()
            );
        }
    }

    #[test]
    fn what_is_nested_too_deep_is_told() {
        let nested = |depth: usize| {
            let (open, close) = ("[".repeat(depth), "]".repeat(depth));
            let text = "[".repeat(200);
            framed(&format!(
                "{{\"jsonrpc\":\"2.0\",\"method\":\"a\",\"params\":[\"\\\"{text}\",{open}{close}]}}"
            ))
        };
        let sound = nested(DEEPEST - 2);
        assert_eq!(through(sound.as_bytes()), sound);
        let deep = nested(DEEPEST - 1) + &framed(SOUND);
        assert_eq!(through(deep.as_bytes()), stands_in(UNREADABLE) + &framed(SOUND));
    }

    #[test]
    fn what_is_too_large_is_dropped_as_it_comes() {
        let mut checked = checked(());
        checked.take(format!("Content-Length: {}\r\n\r\n", LARGEST + 1).as_bytes());
        let piece = vec![b' '; 1 << 20];
        for _ in 0..LARGEST >> 20 {
            checked.take(&piece);
        }
        checked.take(format!(" {}", framed(SOUND)).as_bytes());
        let told = String::from_utf8(checked.ready).expect("it is text");
        assert_eq!(told, stands_in(UNREADABLE) + &framed(SOUND));
    }
}
