namespace Portwitness.Text.Yaml;

/// <summary>A YAML value with its place. Anchors, tags and several documents are not read.</summary>
/// <param name="Line">Counted from 1.</param>
/// <param name="Column">Counted from 1.</param>
public abstract record YamlNode(int Line, int Column);

/// <summary>Text, number or null; what it means is up to the reader.</summary>
public sealed record YamlText(int Line, int Column, string Text) : YamlNode(Line, Column);

/// <summary>A list.</summary>
public sealed record YamlList(int Line, int Column, IReadOnlyList<YamlNode> Items) : YamlNode(Line, Column);

/// <summary>Keys and values in the order of the file.</summary>
public sealed record YamlMap(int Line, int Column, IReadOnlyList<(YamlText Key, YamlNode Value)> Entries)
    : YamlNode(Line, Column);

/// <summary>Text that is not YAML, or not the part of it that is read.</summary>
public sealed class YamlFaultException(int line, int column, string message) : Exception(message)
{
    /// <summary>Counted from 1; 0 for the text as a whole.</summary>
    public int Line { get; } = line;

    /// <summary>Counted from 1; 0 for the text as a whole.</summary>
    public int Column { get; } = column;
}
