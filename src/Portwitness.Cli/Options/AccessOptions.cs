using System.CommandLine;
using Portwitness.Service.Access;
using Portwitness.Service.Validation;

namespace Portwitness.Cli.Options;

/// <summary>Who may use the service, and how much.</summary>
internal sealed class AccessOptions
{
    private static readonly ServiceLimits Usual = new();

    private readonly Option<string> _certificate = File("--certificate", "the service's certificate, PEM, with what signed it; read again when it changes");
    private readonly Option<string> _key = File("--key", "the certificate's private key, PEM without a password");
    private readonly Option<string> _authorities = File("--client-authorities", "authorities, PEM; clients need a certificate that one of them signed (mutual TLS)");
    private readonly Option<bool> _tokens = new("--require-tokens") { Description = "every call needs a token of the store: 'portwitness tokens'" };
    private readonly Option<int> _calls = NumberOption.Create("--calls-at-once", "calls of one client at once", Usual.CallsAtOnce, 1, 1_000_000);
    private readonly Option<int> _rate = NumberOption.Create("--calls-per-second", "calls of one client in a second; twice as many in one burst", Usual.CallsPerSecond, 1, 10_000_000);
    private readonly Option<int> _connections = NumberOption.Create("--connections", "connections of all clients", Usual.Connections, 1, 1_000_000);
    private readonly Option<int> _patience = NumberOption.Create("--patience", "seconds that a client may be silent in the middle of a call", (int)Usual.Patience.TotalSeconds, 1, 86_400, "SECONDS");
    private readonly Option<long?> _file = new("--largest-file") { Description = "bytes of one uploaded file; no limit without it", HelpName = "BYTES" };

    /// <summary>Adds them.</summary>
    public void AddTo(Command command)
    {
        foreach (Option option in new Option[] { _certificate, _key, _authorities, _tokens, _calls, _rate, _connections, _patience, _file })
        {
            command.Add(option);
        }

        command.Validators.Add(result =>
        {
            if (result.GetValue(_certificate) is null != result.GetValue(_key) is null)
            {
                result.AddError("--certificate and --key go together.");
            }

            if (result.GetValue(_authorities) is not null && result.GetValue(_certificate) is null)
            {
                result.AddError("--client-authorities needs --certificate and --key: clients show certificates within TLS.");
            }

            if (result.GetValue(_file) < 1)
            {
                result.AddError("--largest-file takes 1 or more.");
            }
        });
    }

    public AccessSettings SettingsFrom(ParseResult parsed) => new()
    {
        Certificate = parsed.GetValue(_certificate), Key = parsed.GetValue(_key), ClientAuthorities = parsed.GetValue(_authorities),
        RequireTokens = parsed.GetValue(_tokens),
    };

    public ServiceLimits LimitsFrom(ParseResult parsed) => new()
    {
        CallsAtOnce = parsed.GetValue(_calls), CallsPerSecond = parsed.GetValue(_rate), Connections = parsed.GetValue(_connections),
        Patience = TimeSpan.FromSeconds(parsed.GetValue(_patience)), FileBytes = parsed.GetValue(_file),
        UploadBytes = parsed.GetValue(_file) ?? Usual.UploadBytes,
    };

    private static Option<string> File(string name, string description) => new(name) { Description = description, HelpName = "FILE" };
}
