package lsp

import (
	"context"
	"fmt"
	"reflect"
	"runtime/debug"

	"go.lsp.dev/jsonrpc2"
	"go.lsp.dev/protocol"
)

// The methods, each put here by its own file.
var (
	calls         = map[string]func(r *request, params []byte) work{}
	notifications = map[string]func(s *Server, params []byte) error{}
)

// onCall makes a method that is answered. Its parameters are read when its turn
// comes; what it sees is as it was when the call came.
func onCall[P, R any](method string, f func(context.Context, *request, *P) (R, error)) {
	calls[method] = func(r *request, params []byte) work {
		return func(ctx context.Context) (any, error) {
			var p P
			if err := read(params, &p); err != nil {
				return nil, err
			}
			result, err := f(ctx, r, &p)
			if err != nil || isNil(result) {
				return nil, err
			}
			return result, nil
		}
	}
}

// onNotification makes a method that is not answered.
func onNotification[P any](method string, f func(*Server, *P) error) {
	notifications[method] = func(s *Server, params []byte) error {
		var p P
		if err := read(params, &p); err != nil {
			return err
		}
		return f(s, &p)
	}
}

func read(params []byte, into any) error {
	if len(params) == 0 {
		params = []byte("{}")
	}
	if err := protocol.Unmarshal(params, into); err != nil {
		return jsonrpc2.NewError(jsonrpc2.InvalidParams, err.Error())
	}
	return nil
}

// isNil: a pointer to nothing is the answer null.
func isNil(v any) bool {
	r := reflect.ValueOf(v)
	return v == nil || r.Kind() == reflect.Pointer && r.IsNil()
}

// Notify does what a notification says and reports whether to go on.
func (s *Server) Notify(method string, params []byte) (goOn bool) {
	if method == protocol.MethodExit {
		return false
	}
	defer func() {
		if fault := recover(); fault != nil {
			s.log(protocol.MessageTypeError, fmt.Sprintf("%s: %v\n%s", method, fault, debug.Stack()))
			goOn = true
		}
	}()
	f := notifications[method]
	if f == nil || !s.at(running) && method != protocol.MethodInitialized {
		return true
	}
	if err := f(s, params); err != nil {
		s.log(protocol.MessageTypeWarning, method+": "+err.Error())
	}
	return true
}

// Call prepares the answer to a call. The life of the connection is answered at
// once, and so is what is refused.
func (s *Server) Call(method string, params []byte) (do work, atOnce bool) {
	switch {
	case method == protocol.MethodInitialize:
		return s.initialize(params), true
	case s.at(fresh):
		return failing(jsonrpc2.ServerNotInitialized, "the first call must be initialize"), true
	case s.at(shutDown):
		return failing(jsonrpc2.InvalidRequest, "after shutdown comes only exit"), true
	case method == protocol.MethodShutdown:
		s.enter(shutDown)
		return func(context.Context) (any, error) { return nil, nil }, true
	}
	f := calls[method]
	if f == nil {
		return failing(jsonrpc2.MethodNotFound, "there is no method "+method), true
	}
	return f(&request{state: s.now(), server: s}, params), false
}

func failing(code jsonrpc2.Code, message string) work {
	return func(context.Context) (any, error) { return nil, jsonrpc2.NewError(code, message) }
}
