using System.Net.Security;
using System.Security.Authentication;
using System.Security.Cryptography.X509Certificates;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.AspNetCore.Server.Kestrel.Https;

namespace Portwitness.Service.Access;

/// <summary>TLS 1.2 or later for an address, and certificates of clients where they are asked for.</summary>
internal sealed class TlsListener
{
    private static readonly TimeSpan HandshakeTime = TimeSpan.FromSeconds(10);

    private readonly ServiceCertificate _certificate;
    private readonly ClientAuthorities? _authorities;

    /// <summary>Reads the files.</summary>
    /// <exception cref="AccessException">One of them is not what it should be.</exception>
    public TlsListener(AccessSettings settings)
    {
        _certificate = new ServiceCertificate(settings.Certificate!, settings.Key!);
        _authorities = settings.ClientAuthorities is { } file ? new ClientAuthorities(file) : null;
        _ = _certificate.Current;
    }

    /// <summary>Puts it before an address.</summary>
    public void AddTo(ListenOptions listen) => listen.UseHttps(new TlsHandshakeCallbackOptions
    {
        HandshakeTimeout = HandshakeTime,
        OnConnection = _ => ValueTask.FromResult(new SslServerAuthenticationOptions
        {
            ServerCertificateContext = _certificate.Current,
            EnabledSslProtocols = SslProtocols.Tls12 | SslProtocols.Tls13,
            ClientCertificateRequired = _authorities is not null,
            RemoteCertificateValidationCallback = (_, certificate, _, _) =>
                _authorities is null || (certificate is X509Certificate2 shown && _authorities.Accept(shown)),
        }),
    });
}
