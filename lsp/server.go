package lsp

import (
	"context"
	"errors"
	"io"
	"sync"

	"go.lsp.dev/jsonrpc2"
	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"

	"hame/check"
	"hame/lsp/core"
)

// Error codes of the protocol that its library does not name.
const (
	codeServerCancelled jsonrpc2.Code = -32802
	codeRequestFailed   jsonrpc2.Code = -32803
)

// phase is how far the client has come.
type phase uint8

const (
	fresh phase = iota
	running
	shutDown
)

// Server serves one client.
type Server struct {
	conn    *conn
	checker *core.Checker
	closed  core.Shelf
	publish *publisher

	mu    sync.Mutex
	phase phase
	state state
}

// state is everything that an answer hangs on. It is copied for each call and
// never changed in place.
type state struct {
	view     *core.View
	uris     *uriBook
	client   client
	settings settings
	// changed is closed by the next edit.
	changed chan struct{}
}

// earlyAfter is core.EarlyAfter but in tests, which may want to hear all or
// nothing early, however fast the machine is.
var earlyAfter = core.EarlyAfter

// ErrNotShutDown says that the client went away without saying so first.
var ErrNotShutDown = errors.New("the editor left without a shutdown")

// Serve serves a client until it leaves. The error says that it left rudely, or
// that the connection broke. It sets the collector of the process.
func Serve(ctx context.Context, in io.Reader, out io.Writer) error {
	s := &Server{conn: newConn(in, out), checker: core.NewChecker(earlyAfter)}
	s.state = state{view: core.NewView(), uris: newURIBook(), settings: defaults, changed: make(chan struct{})}
	s.publish = newPublisher(s)
	err := s.conn.run(ctx, s)
	s.publish.stop()
	s.conn.out.close()
	s.mu.Lock()
	defer s.mu.Unlock()
	if err == nil && s.phase != shutDown {
		err = ErrNotShutDown
	}
	return err
}

// now is the state at this moment.
func (s *Server) now() state {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.state
}

// change makes a new state.
func (s *Server) change(f func(*state)) {
	s.mu.Lock()
	defer s.mu.Unlock()
	f(&s.state)
}

func (s *Server) at(p phase) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.phase == p
}

func (s *Server) enter(p phase) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.phase = p
}

// Malformed logs what was no message.
func (s *Server) Malformed(err error) { s.log(protocol.MessageTypeWarning, err.Error()) }

// log tells the client something for its log.
func (s *Server) log(t protocol.MessageType, message string) {
	if s.at(running) {
		s.conn.notify(protocol.MethodWindowLogMessage, &protocol.LogMessageParams{Type: t, Message: message})
	}
}

// request is what a call is answered from: the state as it was when it came.
type request struct {
	state
	server *Server
}

// file is the text of a document.
func (r *request) file(u uri.URI) (*core.File, error) {
	f, err := r.view.File(pathOf(u))
	if err != nil {
		return nil, jsonrpc2.NewError(jsonrpc2.InvalidParams, "there is no text of "+string(u))
	}
	return f, nil
}

// at is the text of a document and the offset of a position in it.
func (r *request) at(p protocol.TextDocumentPositionParams) (*core.File, int, error) {
	f, err := r.file(p.TextDocument.URI)
	if err != nil {
		return nil, 0, err
	}
	return f, r.offset(f, p.Position), nil
}

// pass is the check of a file, for which it waits.
func (r *request) pass(ctx context.Context, f *core.File) (*core.Pass, error) {
	p, err := r.server.checker.Pass(ctx, r.view, f.Path)
	if errors.Is(err, core.ErrStale) {
		return nil, protocol.ErrContentModified
	}
	return p, err
}

// version is the version of the program, as the client is told.
const version = check.Version
