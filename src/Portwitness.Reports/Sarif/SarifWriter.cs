using System.Buffers;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Sarif;

/// <summary>JSON onto a text writer, a piece at a time.</summary>
internal sealed class SarifWriter : IDisposable
{
    private readonly ArrayBufferWriter<byte> _buffer = new();
    private readonly TextWriter _writer;

    public SarifWriter(TextWriter writer)
    {
        _writer = writer;

        // Texts are made visible before; what is left needs no more escapes than JSON's own.
        Json = new Utf8JsonWriter(
            _buffer, new JsonWriterOptions { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping });
    }

    public Utf8JsonWriter Json { get; }

    /// <summary>Hands over what was written; only whole members are ever in the buffer.</summary>
    public void Flush()
    {
        Json.Flush();
        _writer.Write(Encoding.UTF8.GetString(_buffer.WrittenSpan));
        _buffer.ResetWrittenCount();
    }

    /// <summary>A string, unless it is empty.</summary>
    public void WriteText(string name, string text)
    {
        if (text.Length > 0)
        {
            Json.WriteString(name, Visible(text));
        }
    }

    /// <summary>A message object. Backslashes, brackets and braces would be links and placeholders (3.11.5, 3.11.6).</summary>
    public void WriteMessage(string name, string text)
    {
        Json.WriteStartObject(name);
        StringBuilder plain = new();
        foreach (char character in Visible(text))
        {
            plain.Append(character is '\\' or '[' or ']' ? "\\" : character is '{' or '}' ? character.ToString() : "").Append(character);
        }

        Json.WriteString("text", plain.ToString());
        Json.WriteEndObject();
    }

    public void Dispose() => Json.Dispose();

    private static string Visible(string text) => string.Join('\n', text.ReplaceLineEndings("\n").Split('\n').Select(VisibleText.Of));
}
