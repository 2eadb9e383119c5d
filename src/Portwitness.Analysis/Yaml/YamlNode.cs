namespace Portwitness.Analysis.Yaml;

/// <summary>A YAML value with its place. Anchors, tags and several documents are not read.</summary>
/// <param name="Line">Counted from 1.</param>
/// <param name="Column">Counted from 1.</param>
internal abstract record YamlNode(int Line, int Column);

/// <summary>Text, number or null; what it means is up to the reader.</summary>
internal sealed record YamlText(int Line, int Column, string Text) : YamlNode(Line, Column);

/// <summary>A list.</summary>
internal sealed record YamlList(int Line, int Column, IReadOnlyList<YamlNode> Items) : YamlNode(Line, Column);

/// <summary>Keys and values in the order of the file.</summary>
internal sealed record YamlMap(int Line, int Column, IReadOnlyList<(YamlText Key, YamlNode Value)> Entries)
    : YamlNode(Line, Column);

/// <summary>Text that is not YAML, or not the part of it that is read.</summary>
internal sealed class YamlFaultException(int line, int column, string message) : Exception(message)
{
    public int Line { get; } = line;

    public int Column { get; } = column;
}
