// Package lsp is the editor server: it speaks the Language Server Protocol 3.17
// (with some of 3.18) and hands every question to package core.
//
// Notifications are taken in the order in which they come, and change what the
// server holds before the next message is read. A call is answered on its own,
// from everything as it was when the call came. Findings are published by one
// worker that waits for pauses in typing.
package lsp
