package rampwright.app.json;

import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.util.List;
import rampwright.app.usecase.ResultSchema;

/** Holds JSON texts against the shipped schema, with a validator that is not ours. */
public final class ResultSchemaValidator {
  private static final Schema SCHEMA =
      SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
          .getSchema(new ResultSchema().run(), InputFormat.JSON);

  private ResultSchemaValidator() {}

  /** What is wrong with a text; empty when it is valid. */
  public static List<String> problems(String json) {
    return SCHEMA.validate(json, InputFormat.JSON).stream().map(Object::toString).toList();
  }
}
