using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace Portwitness.Service.Access;

/// <summary>
/// Judges certificates of clients: signed by an authority of the file, for clients, and neither expired nor not yet valid. Lists of revoked
/// certificates are not asked for: give certificates short lives, or take the authority out.
/// </summary>
internal sealed class ClientAuthorities
{
    // Extended key usage: RFC 5280, 4.2.1.12, id-kp-clientAuth.
    private const string ClientAuthentication = "1.3.6.1.5.5.7.3.2";

    private readonly X509Certificate2Collection _authorities = [];

    /// <summary>Reads the file.</summary>
    /// <exception cref="AccessException">It holds no certificate.</exception>
    public ClientAuthorities(string file)
    {
        try
        {
            _authorities.ImportFromPemFile(file);
        }
        catch (Exception exception) when (exception is CryptographicException or IOException or UnauthorizedAccessException or ArgumentException)
        {
            throw new AccessException($"{file}: cannot be read as PEM certificates ({exception.Message.TrimEnd('.')}).", exception);
        }

        if (_authorities.Count == 0)
        {
            throw new AccessException($"{file}: holds no certificate; it has to be PEM.");
        }
    }

    /// <summary>Whether a client with this certificate is let in.</summary>
    public bool Accept(X509Certificate2 certificate)
    {
        using X509Chain chain = new();
        chain.ChainPolicy.TrustMode = X509ChainTrustMode.CustomRootTrust;
        chain.ChainPolicy.CustomTrustStore.AddRange(_authorities);
        chain.ChainPolicy.RevocationMode = X509RevocationMode.NoCheck;
        chain.ChainPolicy.ApplicationPolicy.Add(new Oid(ClientAuthentication));
        chain.ChainPolicy.DisableCertificateDownloads = true;
        return chain.Build(certificate);
    }
}
