namespace Portwitness.Service.Access;

/// <summary>Who is let in. Without any of it the service is open, and listens to this machine alone.</summary>
public sealed record AccessSettings
{
    /// <summary>PEM file of the service's certificate with what it was signed by; read again when it changes. Null for no TLS.</summary>
    public string? Certificate { get; init; }

    /// <summary>PEM file of the certificate's private key.</summary>
    public string? Key { get; init; }

    /// <summary>PEM file of the authorities whose certificates clients have to show (mutual TLS); null when they need none.</summary>
    public string? ClientAuthorities { get; init; }

    /// <summary>Whether every call needs a token of the store.</summary>
    public bool RequireTokens { get; init; }

    /// <summary>Whether strangers are kept out.</summary>
    public bool AreClosed => RequireTokens || ClientAuthorities is not null;

    /// <summary>Why it cannot listen at an address; null when it can.</summary>
    public string? ProblemWith(ListenAddress address) => (address.IsSecure, address.IsLocal) switch
    {
        (true, _) when Certificate is null || Key is null => $"{address} needs --certificate and --key.",
        (false, false) => $"{address} can be reached from other machines, and nothing would be encrypted; use https with --certificate and --key.",
        (_, false) when !AreClosed =>
            $"{address} can be reached from other machines, and anybody could use it; add --require-tokens, or --client-authorities for mutual TLS.",
        _ => null,
    };
}
