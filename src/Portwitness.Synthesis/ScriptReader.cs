using Portwitness.Captures;
using Portwitness.Text.Yaml;

namespace Portwitness.Synthesis;

/// <summary>Reads the text of a script and walks through it. What is wrong is reported with its place.</summary>
public static class ScriptReader
{
    /// <summary>Longest text, in characters.</summary>
    public const int MaxCharacters = 1 << 20;

    /// <summary>Reads a script.</summary>
    public static SynthesisScript Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (text.Length > MaxCharacters)
        {
            return Unreadable(0, 0, $"a script has at most {MaxCharacters} characters, this one {text.Length}");
        }

        try
        {
            return YamlTreeReader.Read(text) switch
            {
                YamlMap map => new ScriptReading().Read(map),
                null => Unreadable(1, 1, "the script is empty; it needs at least \"steps:\""),
                { } other => Unreadable(other.Line, other.Column, "\"source:\", \"steps:\" and the like were expected"),
            };
        }
        catch (YamlFaultException fault)
        {
            return Unreadable(fault.Line, fault.Column, $"not readable as YAML: {fault.Message}");
        }
    }

    private static SynthesisScript Unreadable(int line, int column, string detail) =>
        new() { Faults = [new CaptureFault(line, column, SynthesisFaultCodes.Unreadable, detail)] };
}
