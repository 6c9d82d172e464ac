package health

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/promhttp"
)

// Server answers /healthz (the process lives), /readyz (ready says nil) and
// /metrics.
type Server struct {
	listener net.Listener
	server   *http.Server
}

// Listen opens the address, such as "127.0.0.1:9090". Ready is asked at every
// /readyz; its error's text is shown, so it must hold no secret.
func Listen(address string, metrics prometheus.Gatherer, ready func() error) (*Server, error) {
	listener, err := net.Listen("tcp", address)
	if err != nil {
		return nil, fmt.Errorf("health port: %w", err)
	}
	mux := http.NewServeMux()
	mux.HandleFunc("GET /healthz", func(w http.ResponseWriter, _ *http.Request) {
		_, _ = fmt.Fprintln(w, "ok")
	})
	mux.HandleFunc("GET /readyz", func(w http.ResponseWriter, _ *http.Request) {
		if err := ready(); err != nil {
			http.Error(w, err.Error(), http.StatusServiceUnavailable)
			return
		}
		_, _ = fmt.Fprintln(w, "ready")
	})
	mux.Handle("GET /metrics", promhttp.HandlerFor(metrics, promhttp.HandlerOpts{}))
	return &Server{
		listener: listener,
		server:   &http.Server{Handler: mux, ReadHeaderTimeout: 5 * time.Second},
	}, nil
}

// Addr is the address that is listened on, with the port that was chosen.
func (s *Server) Addr() string { return s.listener.Addr().String() }

// Run serves until ctx is done.
func (s *Server) Run(ctx context.Context) error {
	stop := context.AfterFunc(ctx, func() {
		shutdown, cancel := context.WithTimeout(context.WithoutCancel(ctx), 2*time.Second)
		defer cancel()
		if err := s.server.Shutdown(shutdown); err != nil {
			_ = s.server.Close()
		}
	})
	defer stop()
	if err := s.server.Serve(s.listener); !errors.Is(err, http.ErrServerClosed) {
		return fmt.Errorf("health port: %w", err)
	}
	return nil
}
