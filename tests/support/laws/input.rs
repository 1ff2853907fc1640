//! What an editor sends comes in as whole, sound messages, and what is none is
//! replaced by one: the same however the bytes were cut on their way.

use serde_json::Value;
use snell_server::input::checked;
use std::pin::{Pin, pin};
use std::task::{Context, Poll, Waker};
use tokio::io::{AsyncRead, ReadBuf};

/// Bytes that come in pieces of one length.
struct Cut<'a> {
    left: &'a [u8],
    piece: usize,
}

impl AsyncRead for Cut<'_> {
    fn poll_read(
        mut self: Pin<&mut Self>,
        _: &mut Context<'_>,
        out: &mut ReadBuf<'_>,
    ) -> Poll<std::io::Result<()>> {
        let count = self.piece.min(out.remaining()).min(self.left.len());
        let (now, later) = self.left.split_at(count);
        out.put_slice(now);
        self.left = later;
        Poll::Ready(Ok(()))
    }
}

/// The first byte says in what pieces the others come.
pub fn holds(bytes: &[u8]) {
    let Some((piece, sent)) = bytes.split_first() else {
        return;
    };
    let at_once = read(sent, usize::MAX);
    let in_pieces = read(sent, 1 + usize::from(*piece));
    assert_eq!(
        String::from_utf8_lossy(&at_once),
        String::from_utf8_lossy(&in_pieces),
        "cut otherwise, it reads otherwise"
    );
    all_are_messages(&at_once);
}

/// Everything that is handed on.
fn read(sent: &[u8], piece: usize) -> Vec<u8> {
    let mut reader = pin!(checked(Cut { left: sent, piece }));
    let mut context = Context::from_waker(Waker::noop());
    let mut all = Vec::new();
    loop {
        let mut room = [0; 1024];
        let mut buffer = ReadBuf::new(&mut room);
        match reader.as_mut().poll_read(&mut context, &mut buffer) {
            Poll::Ready(Ok(())) if buffer.filled().is_empty() => return all,
            Poll::Ready(Ok(())) => all.extend_from_slice(buffer.filled()),
            other => panic!("bytes in memory are there: {other:?}"),
        }
    }
}

fn all_are_messages(mut handed: &[u8]) {
    const HEAD: &[u8] = b"Content-Length: ";
    while !handed.is_empty() {
        let rest = handed.strip_prefix(HEAD).expect("a header comes first");
        let end = rest
            .windows(4)
            .position(|four| four == b"\r\n\r\n")
            .expect("it ends");
        let length: usize = std::str::from_utf8(&rest[..end])
            .ok()
            .and_then(|told| told.parse().ok())
            .expect("it tells a length");
        let body = &rest[end + 4..];
        assert!(length <= body.len(), "{length} of {}", body.len());
        let message: Value = serde_json::from_slice(&body[..length]).expect("it is JSON");
        assert_eq!(message["jsonrpc"], "2.0");
        handed = &body[length..];
    }
}
