package overlay

import (
	"clocktell/relay/desk"
)

// object is a JSON object of a description.
type object = map[string]any

// describeActions describes the calls of all actions in OpenAPI 3.1.0 (OpenAPI
// Initiative, 2021). What it has no word for stands in "x-key", the key on the desk, and
// "x-order", the place in the table, which the order of an object does not keep.
func describeActions(actions []desk.Action) object {
	paths, groups := object{}, []object{}
	var last desk.Group
	for order, action := range actions {
		if action.Group != last {
			last = action.Group
			groups = append(groups, object{"name": action.Group})
		}
		paths[actionsPath+"/"+action.Name] = object{"post": describeAction(order, action)}
	}
	return object{
		"openapi": "3.1.0",
		"info": object{
			"title": "clocktell: what can be done at the desk", "version": "1",
			"description": "Every action of the desk, for buttons of any kind. A call is done once under its id; without one each call is another.",
		},
		"tags": groups, "paths": paths,
		"components": object{
			"schemas":         object{"reply": replySchema},
			"securitySchemes": object{"token": object{"type": "http", "scheme": "bearer"}},
		},
		"security": []object{{}, {"token": []string{}}},
	}
}

var replySchema = object{
	"type": "object", "required": []string{"done", "error"},
	"properties": object{
		"done":  object{"type": "boolean"},
		"error": object{"type": "string", "description": "what is wrong and what to do; empty when done"},
	},
}

func describeAction(order int, action desk.Action) object {
	properties := object{
		"id":  object{"type": "string", "maxLength": entryIDMost, "description": "of the sender's making; sent twice it is done once"},
		"who": object{"type": "string", "maxLength": desk.WhoMost, "description": "who does it; without it whoever leads"},
	}
	required := []string{}
	for _, field := range action.Takes {
		properties[field.Name] = describeField(field)
		if field.Required {
			required = append(required, field.Name)
		}
	}
	return object{
		"operationId": action.Name, "summary": action.Title, "description": action.Does, "tags": []any{action.Group}, "x-key": action.Key, "x-order": order,
		"requestBody": object{
			"required": len(required) > 0,
			"content": object{"application/json": object{"schema": object{
				"type": "object", "properties": properties, "required": required, "additionalProperties": false,
			}}},
		},
		"responses": object{
			"200":     describeReply("done"),
			"409":     describeReply("cannot be done; error says why"),
			"default": describeReply("not understood, or not allowed"),
		},
	}
}

func describeField(field desk.Field) object {
	schema := object{"type": field.Kind, "description": field.Does}
	if field.Kind == desk.FieldTexts {
		schema["items"] = object{"type": "string", "maxLength": desk.TextMost}
	}
	return schema
}

func describeReply(what string) object {
	return object{
		"description": what,
		"content":     object{"application/json": object{"schema": object{"$ref": "#/components/schemas/reply"}}},
	}
}
