using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules;

/// <summary>An input that breaks a rule; tests run it, and pages show it.</summary>
/// <param name="Says">What is wrong with it.</param>
public abstract record RuleExample(string Says)
{
    /// <summary>The input as pages show it.</summary>
    public abstract IEnumerable<string> Lines { get; }
}

/// <summary>A capability list.</summary>
/// <param name="Words">Power Data Objects as hexadecimal words.</param>
/// <param name="Says">What is wrong with it.</param>
/// <param name="Edition">The edition to state; null when the rule does not depend on it.</param>
public sealed record ListExample(string Words, string Says, Editions? Edition = null) : RuleExample(Says)
{
    /// <inheritdoc/>
    public override IEnumerable<string> Lines => Edition is { } edition ? [Words, $"edition: {edition.ToText()}"] : [Words];
}

/// <summary>A message.</summary>
/// <param name="Bytes">Its bytes in hexadecimal, from the header on.</param>
/// <param name="Says">What is wrong with it.</param>
public sealed record MessageExample(string Bytes, string Says) : RuleExample(Says)
{
    /// <inheritdoc/>
    public override IEnumerable<string> Lines => [Bytes];
}

/// <summary>A conversation, and perhaps a label.</summary>
/// <param name="Script">A script of "portwitness synthesize", whose capture is checked.</param>
/// <param name="Says">What is wrong with it.</param>
/// <param name="Label">The label; null for none.</param>
public sealed record ScriptExample(string Script, string Says, string? Label = null) : RuleExample(Says)
{
    /// <inheritdoc/>
    public override IEnumerable<string> Lines => Label is null ? [Script] : [Script, $"label: {Label}"];
}

/// <summary>A label, and perhaps the list that it is compared with.</summary>
/// <param name="Words">The list, as in <see cref="ListExample"/>; empty for none.</param>
/// <param name="Says">What is wrong with it.</param>
/// <param name="Label">The label.</param>
public sealed record LabelExample(string Words, string Says, string Label) : RuleExample(Says)
{
    /// <inheritdoc/>
    public override IEnumerable<string> Lines => Words.Length > 0 ? [Words, $"label: {Label}"] : [$"label: {Label}"];
}

/// <summary>A product file, with a capture at port C, and perhaps a log.</summary>
/// <param name="Words">The capture, as in <see cref="ListExample"/>.</param>
/// <param name="Says">What is wrong with it.</param>
/// <param name="Members">The file's other members.</param>
/// <param name="Log">The log "log.csv" that it names; null for none.</param>
public sealed record ProductExample(string Words, string Says, string Members, string? Log = null) : RuleExample(Says)
{
    /// <summary>Whether readings near their limits are decided by guarded acceptance.</summary>
    public bool Guarded { get; init; }

    /// <inheritdoc/>
    public override IEnumerable<string> Lines =>
    [
        Words, Members.TrimEnd(), .. Log is null ? Array.Empty<string>() : ["log.csv:", Log.TrimEnd()], .. Guarded ? ["--guard"] : Array.Empty<string>(),
    ];
}
