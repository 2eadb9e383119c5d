using System.CommandLine;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Formats;

namespace Portwitness.Cli.Options;

/// <summary>The options that several commands share.</summary>
internal sealed class CommonOptions
{
    /// <summary>The option that names a service.</summary>
    public const string ServerName = "--server";

    public Option<string> Server { get; } = new(ServerName)
    {
        Description = "service to use: http://host:port, https://host:port or unix:/path; without it this process serves itself. Its token is taken\n"
            + "from PORTWITNESS_TOKEN or PORTWITNESS_TOKEN_FILE; PORTWITNESS_CA, _CERTIFICATE and _KEY name PEM files for TLS",
        HelpName = "URL",
    };

    public Option<string> Format { get; } = new("--format")
    {
        Description = "text for people, json for scripts",
        DefaultValueFactory = static _ => ReportFormat.Plain.Name,
    };

    public Option<string> Output { get; } = new("--output")
    {
        Description = "write the report to this file, which appears whole or not at all",
        HelpName = "FILE",
    };

    public Option<string> FailOnWord { get; } = new Option<string>("--fail-on")
    {
        Description = "least severity that makes the exit code 1: violation, mismatch (with violation), caution (with both), or never",
        DefaultValueFactory = _ => FailOn.Default,
        HelpName = "violation|mismatch|caution|never",
    }.AcceptOnlyFromAmong(FailOn.Words);

    public Option<string> Edition { get; } = new Option<string>("--edition")
    {
        Description = "edition of the standard that the product follows, when it is known: R2.0, R3.0, R3.1 or R3.2",
        HelpName = "EDITION",
    }.AcceptOnlyFromAmong("R2.0", "R3.0", "R3.1", "R3.2");

    public Option<string[]> Only { get; } = new("--only")
    {
        Description = "apply only this rule; may be given several times",
        HelpName = "RULE",
    };

    public Option<string[]> Without { get; } = new("--without")
    {
        Description = "leave this rule out; may be given several times. The report says what was left out",
        HelpName = "RULE",
    };

    public Option<bool> Guard { get; } = new("--guard")
    {
        Description = "decide by guarded acceptance: what is measured inside its limits by less than its uncertainty (k = 2) leaves the verdict\n"
            + "open. Without it what is inside holds; what is outside by no more than its uncertainty never fails",
    };

    public Option<bool> Quiet { get; } = new("--quiet")
    {
        Description = "print errors only; the exit code tells the result, and --output is still written",
    };

    public Option<bool> NoColor { get; } = new("--no-color")
    {
        Description = "no colour; the same as setting NO_COLOR",
    };

    /// <summary>Makes the options.</summary>
    /// <param name="formats">What --format takes.</param>
    /// <param name="several">Whether it takes several at once, with commas between.</param>
    public CommonOptions(IReadOnlyList<string>? formats = null, bool several = false)
    {
        string[] words = [.. formats ?? [ReportFormat.Plain.Name, ReportFormat.Json.Name]];
        Format.HelpName = string.Join('|', words);
        Format.CompletionSources.Add(words);
        Format.Validators.Add(result =>
        {
            string given = result.GetValueOrDefault<string>() ?? "";
            foreach (string word in (several ? given.Split(',') : [given]).Where(word => !words.Contains(word)))
            {
                result.AddError($"--format '{word}' is none of {string.Join(", ", words)}.");
            }
        });
        Server.Validators.Add(result =>
        {
            string text = result.GetValueOrDefault<string>() ?? "";
            if (!ServerAddress.TryParse(text, out _))
            {
                result.AddError($"--server '{text}' is no address; expected http://host:port, https://host:port or unix:/path.");
            }
        });
    }

    /// <summary>The options for a command that judges something.</summary>
    public void AddTo(Command command, bool edition)
    {
        AddOutputTo(command);
        command.Add(FailOnWord);
        if (edition)
        {
            command.Add(Edition);
            command.Add(Only);
            command.Add(Without);
        }
    }

    /// <summary>The options for a command that only prints.</summary>
    public void AddOutputTo(Command command)
    {
        foreach (Option option in new Option[] { Server, Format, Output, Quiet, NoColor })
        {
            command.Add(option);
        }
    }

    public ServerAddress? ServerFrom(ParseResult parsed) =>
        ServerAddress.TryParse(parsed.GetValue(Server) ?? "", out ServerAddress? address) ? address : null;

    /// <summary>Says by what a product is judged.</summary>
    public void SetTo(CheckOptions options, ParseResult parsed) =>
        (options.Edition, options.Rules, options.Guard) = (EditionFrom(parsed), RulesFrom(parsed), parsed.GetValue(Guard));

    public string EditionFrom(ParseResult parsed) => parsed.GetValue(Edition) ?? "";

    /// <summary>The rules to apply; null for all.</summary>
    public RuleSelection? RulesFrom(ParseResult parsed)
    {
        RuleSelection rules = new() { Only = { parsed.GetValue(Only) ?? [] }, Without = { parsed.GetValue(Without) ?? [] } };
        return rules.Only.Count + rules.Without.Count > 0 ? rules : null;
    }

    /// <summary>All that a result depends on besides the files, in one line.</summary>
    public string SettingsFrom(ParseResult parsed) => string.Join("; ", (string[])
    [
        $"portwitness {typeof(CommonOptions).Assembly.GetName().Version}",
        $"edition {EditionFrom(parsed)}",
        $"only {string.Join(',', parsed.GetValue(Only) ?? [])}",
        $"without {string.Join(',', parsed.GetValue(Without) ?? [])}",
        .. parsed.GetValue(Guard) ? ["guarded"] : Array.Empty<string>(),
        $"fail-on {parsed.GetValue(FailOnWord)}",
        $"format {parsed.GetValue(Format)}",
    ]);

    public int ExitCodeFor(ParseResult parsed, IEnumerable<Finding> findings) =>
        FailOn.ExitCodeFor(parsed.GetRequiredValue(FailOnWord), findings);

    /// <summary>Tells how far a reading is, unless nobody watches or wants to know.</summary>
    public Progress ProgressFor(ParseResult parsed, Terminal terminal) =>
        new(terminal.Error, terminal.ErrorIsTerminal && !parsed.GetValue(Quiet), TimeProvider.System);

    /// <summary>What products' reports are written as; each once.</summary>
    public IReadOnlyList<ReportFormat> FormatsFrom(ParseResult parsed) =>
        [.. parsed.GetRequiredValue(Format).Split(',').Distinct().Select(ReportFormat.Of)];

    public bool IsJson(ParseResult parsed) => parsed.GetValue(Format) == ReportFormat.Json.Name;
}
