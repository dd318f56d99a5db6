package lsp

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"runtime/debug"
	"sync"

	"go.lsp.dev/jsonrpc2"
	"go.lsp.dev/protocol"

	"hame/lsp/wire"
)

// mostCalls is how many calls may wait for their answers; more are refused.
const mostCalls = 512

// mostAtOnce is how many calls are worked on at once.
const mostAtOnce = 8

// conn is one client's connection.
type conn struct {
	in      *wire.Reader
	out     *outbox
	slots   chan struct{}
	running sync.WaitGroup

	mu     sync.Mutex
	calls  map[jsonrpc2.ID]context.CancelFunc
	nextID int64
}

func newConn(in io.Reader, out io.Writer) *conn {
	return &conn{
		in: wire.NewReader(in), out: newOutbox(out), slots: make(chan struct{}, mostAtOnce),
		calls: map[jsonrpc2.ID]context.CancelFunc{},
	}
}

// work makes the answer to a call.
type work func(context.Context) (any, error)

// handler takes messages. A notification is done when Notify comes back; Call
// looks at what it must look at now and answers with the work that is to be
// done, at once or when its turn comes.
type handler interface {
	Notify(method string, params []byte) (goOn bool)
	Call(method string, params []byte) (do work, atOnce bool)
	Malformed(err error)
}

// run reads messages until the client is gone or a notification ends it.
func (c *conn) run(ctx context.Context, h handler) error {
	ctx, cancel := context.WithCancel(ctx)
	defer c.running.Wait()
	defer cancel()
	for {
		body, err := c.in.Next()
		var bad *wire.Malformed
		switch {
		case errors.As(err, &bad):
			c.malformed(h, jsonrpc2.ParseError, err)
			continue
		case err == io.EOF:
			return nil
		case err != nil:
			return err
		}
		if !c.take(ctx, h, body) {
			return nil
		}
	}
}

// take deals with one message and reports whether to go on.
func (c *conn) take(ctx context.Context, h handler, body []byte) bool {
	if !json.Valid(body) {
		c.malformed(h, jsonrpc2.ParseError, errors.New("a message that is no JSON"))
		return true
	}
	message, err := jsonrpc2.DecodeMessage(body)
	if err != nil {
		c.malformed(h, jsonrpc2.InvalidRequest, err)
		return true
	}
	switch m := message.(type) {
	case *jsonrpc2.Notification:
		if m.Method() == protocol.MethodCancelRequest {
			c.cancel(m.Params())
			return true
		}
		return h.Notify(m.Method(), m.Params())
	case *jsonrpc2.Call:
		c.call(ctx, h, m)
	}
	return true // answers to what the server asked change nothing
}

func (c *conn) malformed(h handler, code jsonrpc2.Code, err error) {
	h.Malformed(err)
	c.answer(jsonrpc2.ID{}, nil, jsonrpc2.NewError(code, err.Error()))
}

// call begins the work on a call, in a goroutine of its own.
func (c *conn) call(ctx context.Context, h handler, m *jsonrpc2.Call) {
	ctx, cancel := context.WithCancel(ctx)
	if why := c.admit(m.ID(), cancel); why != nil {
		cancel()
		c.answer(m.ID(), nil, why)
		return
	}
	do, atOnce := h.Call(m.Method(), m.Params())
	finish := func(perform func(context.Context, work) (any, error)) {
		defer cancel()
		result, err := perform(ctx, do)
		if ctx.Err() != nil {
			result, err = nil, protocol.ErrRequestCancelled
		}
		c.mu.Lock()
		delete(c.calls, m.ID())
		c.mu.Unlock()
		c.answer(m.ID(), result, err)
	}
	if atOnce {
		finish(guarded)
		return
	}
	c.running.Go(func() { finish(c.perform) })
}

// admit notes a call, unless too many wait or one of that name does.
func (c *conn) admit(id jsonrpc2.ID, cancel context.CancelFunc) error {
	c.mu.Lock()
	defer c.mu.Unlock()
	if len(c.calls) >= mostCalls {
		return jsonrpc2.NewError(codeServerCancelled, "too many calls wait for their answers")
	}
	if _, taken := c.calls[id]; taken {
		return jsonrpc2.NewError(jsonrpc2.InvalidRequest, "a call of that id waits for its answer")
	}
	c.calls[id] = cancel
	return nil
}

// perform does a call's work when it is its turn.
func (c *conn) perform(ctx context.Context, do work) (any, error) {
	select {
	case c.slots <- struct{}{}:
	case <-ctx.Done():
		return nil, ctx.Err()
	}
	defer func() { <-c.slots }()
	return guarded(ctx, do)
}

// guarded does a call's work. A fault in it is an answer.
func guarded(ctx context.Context, do work) (result any, err error) {
	defer func() {
		if fault := recover(); fault != nil {
			err = jsonrpc2.NewError(jsonrpc2.InternalError, fmt.Sprintf("%v\n%s", fault, debug.Stack()))
		}
	}()
	return do(ctx)
}

// cancel stops the call that a cancellation names, if it still runs.
func (c *conn) cancel(params []byte) {
	var p protocol.CancelParams
	if protocol.Unmarshal(params, &p) != nil {
		return
	}
	var id jsonrpc2.ID
	switch v := p.ID.(type) {
	case protocol.Integer:
		id = jsonrpc2.NewNumberID(int64(v))
	case protocol.String:
		id = jsonrpc2.NewStringID(string(v))
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	if stop := c.calls[id]; stop != nil {
		stop()
	}
}

// answer sends the answer to a call.
func (c *conn) answer(id jsonrpc2.ID, result any, err error) {
	var raw []byte
	if err == nil {
		if raw, err = protocol.Marshal(result); err != nil {
			err = jsonrpc2.NewError(jsonrpc2.InternalError, err.Error())
		}
	}
	if err != nil {
		raw, err = nil, asError(err)
	}
	c.send(jsonrpc2.NewResponse(id, raw, err))
}

// asError gives every error a code.
func asError(err error) error {
	var coded *jsonrpc2.Error
	if errors.As(err, &coded) {
		return coded
	}
	return jsonrpc2.NewError(codeRequestFailed, err.Error())
}

// notify sends a notification.
func (c *conn) notify(method string, params any) {
	if raw, err := protocol.Marshal(params); err == nil {
		c.send(jsonrpc2.NewNotification(method, raw))
	}
}

// ask sends a call whose answer does not matter.
func (c *conn) ask(method string, params any) {
	raw := []byte(nil)
	if params != nil {
		var err error
		if raw, err = protocol.Marshal(params); err != nil {
			return
		}
	}
	c.mu.Lock()
	c.nextID++
	id := jsonrpc2.NewNumberID(c.nextID)
	c.mu.Unlock()
	c.send(jsonrpc2.NewCall(id, method, raw))
}

func (c *conn) send(m jsonrpc2.Message) {
	if body, err := jsonrpc2.EncodeMessage(m); err == nil {
		c.out.put(body)
	}
}
