package serve

import (
	"bytes"
	"context"
	"encoding/json"
	"net/http"
	"net/http/httptest"

	"github.com/labstack/echo/v4"
)

// Whole answers one calculation in process with all the digits it was computed with, as
// what is held against it may want them. The error is that of the calculation.
func (s *Service) Whole(ctx context.Context, path string, body []byte) (reply []byte, err error) {
	t, err := s.desk.works[path].Read(body)
	if err != nil {
		return nil, err
	}
	ctx, counted := s.desk.simulating(ctx, s.desk.mostSimulated)
	defer counted()
	answer, err := t.Run(ctx, s.desk.tables)
	if err != nil {
		return nil, err
	}
	return json.Marshal(answer)
}

// Ask answers one request in process, without a socket, with the same body the
// server would send. accept is the media type wanted ("" for JSON); body is nil
// for a look-up. More headers are name, value, name, value. The status is 200 for an answer.
func (s *Service) Ask(httpMethod, target, accept string, body []byte, headers ...string) (status int, reply []byte) {
	request, err := http.NewRequestWithContext(context.Background(), httpMethod, target, bytes.NewReader(body))
	if err != nil {
		return http.StatusBadRequest, []byte(`{"type":"/problems/unreadable","title":"The request cannot be read","status":400}` + "\n")
	}
	if body != nil {
		request.Header.Set(echo.HeaderContentType, echo.MIMEApplicationJSON)
	}
	if accept != "" {
		request.Header.Set(echo.HeaderAccept, accept)
	}
	for i := 0; i+1 < len(headers); i += 2 {
		request.Header.Set(headers[i], headers[i+1])
	}
	recorder := httptest.NewRecorder()
	s.ServeHTTP(recorder, request)
	return recorder.Code, recorder.Body.Bytes()
}
