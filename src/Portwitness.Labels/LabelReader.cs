#pragma warning disable CS1591
namespace Portwitness.Labels;

/// <summary>Reads a label's text.</summary>
public static class LabelReader
{
    /// <summary>Reads any text; what cannot be read is kept as <see cref="Label.Unread"/>. Never throws for its content.</summary>
    public const int MaximumLength = 1 << 20;
    public static Label Read(string text) => throw new NotImplementedException();
}
