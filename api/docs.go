package api

import (
	"net/http"

	"github.com/labstack/echo/v4"
	"github.com/swaggest/swgui"
	"github.com/swaggest/swgui/v5emb"

	"latewood/openapi"
)

// contractJSON serves the committed contract.
func contractJSON(*Service) echo.HandlerFunc {
	return func(c echo.Context) error {
		text, err := openapi.JSON()
		if err != nil {
			return err
		}
		return sendTable(c, echo.MIMEApplicationJSON, text)
	}
}

func contractYAML(*Service) echo.HandlerFunc {
	return func(c echo.Context) error { return sendTable(c, "application/yaml", openapi.YAML()) }
}

// docs serves the browsable contract. Its assets are inside the program.
func docs(*Service) echo.HandlerFunc {
	browser := v5emb.NewWithConfig(swgui.Config{SettingsUI: map[string]string{"validatorUrl": "null"}})("latewood", "/openapi.json", "/docs/")
	return func(c echo.Context) error {
		if c.Request().URL.Path == "/docs" {
			return c.Redirect(http.StatusMovedPermanently, "/docs/")
		}
		browser.ServeHTTP(c.Response(), c.Request())
		return nil
	}
}
