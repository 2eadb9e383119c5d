using System.Net.Security;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Connection;

/// <summary>What this client shows a service, and whom it trusts, from the environment: secrets do not belong on a command line, which others can see.</summary>
internal static class ClientIdentity
{
    /// <summary>The token; null when there is none.</summary>
    /// <exception cref="CommandFailure">Its file cannot be read.</exception>
    public static string? Token
    {
        get
        {
            if (Get("PORTWITNESS_TOKEN") is { } token)
            {
                return token;
            }

            try
            {
                return Get("PORTWITNESS_TOKEN_FILE") is { } file ? File.ReadAllText(file).Trim() : null;
            }
            catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
            {
                throw new CommandFailure($"PORTWITNESS_TOKEN_FILE: {exception.Message}");
            }
        }
    }

    /// <summary>How TLS is spoken: with the authorities of PORTWITNESS_CA instead of the system's, and with a certificate where there is one.</summary>
    /// <exception cref="CommandFailure">A file cannot be read.</exception>
    public static SslClientAuthenticationOptions TlsOptions()
    {
        SslClientAuthenticationOptions options = new();
        if (Get("PORTWITNESS_CA") is { } authorities)
        {
            X509Certificate2Collection roots = [];
            Read("PORTWITNESS_CA", () => roots.ImportFromPemFile(authorities));
            options.CertificateChainPolicy = new X509ChainPolicy { TrustMode = X509ChainTrustMode.CustomRootTrust, RevocationMode = X509RevocationMode.NoCheck };
            options.CertificateChainPolicy.CustomTrustStore.AddRange(roots);
        }

        if (Get("PORTWITNESS_CERTIFICATE") is { } certificate)
        {
            options.ClientCertificates = [];
            Read("PORTWITNESS_CERTIFICATE", () => options.ClientCertificates.Add(X509Certificate2.CreateFromPemFile(certificate, Get("PORTWITNESS_KEY"))));
        }

        return options;
    }

    private static string? Get(string name) => Environment.GetEnvironmentVariable(name) is { Length: > 0 } value ? value : null;

    private static void Read(string name, Action read)
    {
        try
        {
            read();
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException or CryptographicException or ArgumentException)
        {
            throw new CommandFailure($"{name}: {exception.Message.TrimEnd('.')}; it has to name a PEM file.");
        }
    }
}
