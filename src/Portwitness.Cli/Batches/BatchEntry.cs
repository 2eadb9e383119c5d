using System.Text.Json;
using System.Text.Json.Serialization;
using Portwitness.Contracts.V1;

namespace Portwitness.Cli.Batches;

/// <summary>One product of a batch as its journal keeps it: what was read, and how it came out.</summary>
internal sealed record BatchEntry
{
    /// <summary>The product's folder, as a full path.</summary>
    public required string Product { get; init; }

    /// <summary>The report beside the journal; empty when the product was unchanged since another batch, which has it.</summary>
    public required string Report { get; init; }

    /// <summary>The product's name, as its product file says.</summary>
    public string Name { get; init; } = "";

    /// <summary>Which sample it is.</summary>
    public string Sample { get; init; } = "";

    /// <summary>Its firmware version.</summary>
    public string Firmware { get; init; } = "";

    /// <summary>The report of an unchanged product, as a full path into the folder of the batch that wrote it; empty otherwise.</summary>
    public string EarlierReport { get; init; } = "";

    /// <summary>The report's files, one a format, with the SHA-256 of their content: what is damaged or gone is written anew.</summary>
    public required IReadOnlyDictionary<string, string> ReportDigests { get; init; }

    /// <summary>Version and options that the result depends on.</summary>
    public required string Settings { get; init; }

    /// <summary>Every file that was asked for, with the SHA-256 of its content in hexadecimal digits, or a word in place of one.</summary>
    public required IReadOnlyDictionary<string, string> Inputs { get; init; }

    /// <summary>How it came out; cannot_tell when it could not be read.</summary>
    [JsonConverter(typeof(VerdictWords))]
    public required Verdict Verdict { get; init; }

    /// <summary>Why the product could not be read; null when it could.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Problem { get; init; }

    /// <summary>The product's own exit code.</summary>
    public required int ExitCode { get; init; }

    /// <summary>How many findings each rule has.</summary>
    public required IReadOnlyDictionary<string, int> Findings { get; init; }

    /// <summary>Whether it has all that a journal writes; JSON may hold null wherever it likes.</summary>
    [JsonIgnore]
    public bool IsComplete =>
        !((object?[])[Product, Report, EarlierReport, ReportDigests, Name, Sample, Firmware, Settings, Inputs, Findings]).Contains(null)
        && !Inputs.Values.Contains(null) && !ReportDigests.Values.Contains(null);
}

[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.SnakeCaseLower)]
[JsonSerializable(typeof(BatchEntry))]
internal sealed partial class BatchEntryJson : JsonSerializerContext;

/// <summary>Verdicts as reports spell them: holds, fails, cannot_tell.</summary>
internal sealed class VerdictWords() : JsonStringEnumConverter<Verdict>(JsonNamingPolicy.SnakeCaseLower);
