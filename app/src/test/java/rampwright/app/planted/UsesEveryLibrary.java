package rampwright.app.planted;

record UsesEveryLibrary(
    com.ghgande.j2mod.modbus.facade.ModbusTCPMaster modbus,
    com.fazecast.jSerialComm.SerialPort port,
    java.net.ServerSocket socket,
    java.sql.Connection database,
    java.awt.Color colour,
    picocli.CommandLine commands,
    org.apache.parquet.schema.MessageType parquet,
    tech.tablesaw.api.Table table,
    org.tomlj.TomlTable toml,
    gg.jte.TemplateEngine templates,
    com.openhtmltopdf.pdfboxout.PdfRendererBuilder paper,
    com.fasterxml.jackson.core.JsonFactory json) {}
